/** Shapes of spring ends. */
import type { EndType } from '../../domain/formula/coil.ts';

export const END_NAMES: readonly EndType[] = ['plain', 'plain_ground', 'closed', 'closed_ground'];
export const DEFAULT_ENDS: EndType = 'closed_ground';
