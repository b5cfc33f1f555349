/** The full working of one combination: what `explain` prints. */
import type { CriterionScore, Failure, Flag, PartChoice } from './result.ts';
import type { AxleName, Family } from './scenario.ts';
import type { WorkingLine } from './workingLine.ts';

export type { WorkingLine };

export interface Explanation {
  readonly id: string;
  readonly setup: string;
  readonly scenarioName: string;
  readonly workable: boolean;
  readonly failures: readonly Failure[];
  readonly flags: readonly Flag[];
  readonly axles: Readonly<Record<AxleName, ExplainedCorner>>;
  readonly pair: readonly WorkingLine[];
  readonly criteria: readonly CriterionScore[];
  readonly score: number;
}

export interface ExplainedCorner {
  readonly id: string;
  readonly parts: Readonly<Record<Family, PartChoice>>;
  readonly lines: readonly WorkingLine[];
}
