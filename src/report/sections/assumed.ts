/**
 * Assumed values in few words, for paper: those of one source together, what both axles share said once, and of what
 * was left out only the name.
 */
import type { Assumption } from '../../domain/scenario.ts';

export interface AssumedGroup {
  readonly source: string;
  /** `sleeve groove_drop 0 mm` */
  readonly values: readonly string[];
}

export function assumedGroups(assumptions: readonly Assumption[]): AssumedGroup[] {
  const sources = [...new Set(assumptions.map(({ source }) => source))];
  return sources.map((source) => ({ source, values: valuesOf(assumptions.filter((one) => one.source === source)) }));
}

/** Both axles' fields, without their axle, where both took the same. */
function valuesOf(assumptions: readonly Assumption[]): string[] {
  const said = assumptions.map(({ field, value }) => {
    const axle = /^axles\.(front|rear)\./.exec(field)?.[1] ?? null;
    const name = field.replace(/^axles\.(front|rear)\./, '').replaceAll(/\[\d*\]/g, '');
    return { axle, text: /^not given/.test(value) ? name : `${name} ${value}` };
  });
  const texts = [...new Set(said.map(({ text }) => text))];
  return texts.map((text) => {
    const axles = said.filter((one) => one.text === text).map(({ axle }) => axle);
    return axles.length === 1 && axles[0] !== null ? `${axles[0]} ${text}` : text;
  });
}
