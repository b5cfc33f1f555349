/** The wire materials a spring may name. */
import { MATERIALS } from '../../domain/materials.ts';
import { choice } from './leaves.ts';

export type MaterialName = keyof typeof MATERIALS;
export const MATERIAL_NAMES = Object.keys(MATERIALS) as readonly MaterialName[];

/** Taken for wire of which nobody named the material. */
export const DEFAULT_MATERIAL: MaterialName = 'chrome_silicon';

export function materialName(text: string) {
  return choice(MATERIAL_NAMES, text);
}
