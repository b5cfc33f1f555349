/** What a person calls the criteria, part families, axles and the dimensions picked among. */
import type { CriterionScore } from '../../model/corner/score.ts';
import { CRITERIA } from '../../model/criteria.ts';
import type { AxleName, Family } from '../../model/scenario.ts';

export const AXLE_TITLES: Readonly<Record<AxleName, string>> = { front: 'Front', rear: 'Rear' };

export const FAMILY_LABELS: Readonly<Record<Family, string>> = {
  damper: 'damper',
  mount: 'top mount',
  isolator: 'isolator',
  bumpStop: 'bump stop',
  rodEnd: 'rod end',
  sleeve: 'sleeve',
  perch: 'perch',
  helper: 'helper spring',
  spring: 'main spring',
};

export function criterionLabel({ criterion, axle }: Pick<CriterionScore, 'criterion' | 'axle'>): string {
  const { label } = CRITERIA[criterion];
  return axle === null ? label : `${axle} ${label}`;
}

/** Ranks in rising order, runs of three and more drawn together: `1 to 3, 5, 6`. */
export function rankText(ranks: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const rank of ranks) {
    const run = runs.at(-1);
    if (run && run[1] === rank - 1) run[1] = rank;
    else runs.push([rank, rank]);
  }
  return runs.map(([first, last]) => runText(first, last)).join(', ');
}

function runText(first: number, last: number): string {
  if (last - first < 2) return first === last ? `${first}` : `${first}, ${last}`;
  return `${first} to ${last}`;
}
