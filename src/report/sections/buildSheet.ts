/** The build sheet: what to cut, where to set what, and what a ruler should find, for the bench. */
import type { Combination, Result } from '../../domain/result.ts';
import { AXLE_NAMES } from '../../domain/scenario.ts';
import { type Build, buildsOf } from '../builds.ts';
import { sheetCautions } from '../cautions.ts';
import { PAGE, withUnits } from '../numbers.ts';
import { choiceOf, nameOf, quantityOf, wordOf } from '../read.ts';
import { type HeightColumn, type HeightRow, heightColumns, heightRows } from './sheetHeights.ts';
import { type PartRow, partRows } from './sheetParts.ts';

export interface BuildSheetView {
  readonly id: string;
  readonly isPlan: boolean;
  readonly setups: readonly string[];
  /** Ids of the combinations, one a setup. */
  readonly ids: readonly string[];
  readonly parts: readonly PartRow[];
  readonly columns: readonly HeightColumn[];
  readonly rows: readonly HeightRow[];
  readonly work: Work;
  /** What to beware of at the bench. */
  readonly cautions: string;
}

/** What of the work there is: the steps that a build does not need are left out. */
export interface Work {
  readonly cutsSleeve: boolean;
  readonly cutsStop: boolean;
  readonly lowersGroove: boolean;
  readonly hasPacker: boolean;
  readonly hasSpacer: boolean;
  readonly hasHelper: boolean;
  readonly hasIsolator: boolean;
  readonly isPreloaded: boolean;
  readonly isLoose: boolean;
  readonly stopMeetsSleeve: boolean;
  /** The thread on every rod was given, so that its nuts were checked. */
  readonly knowsRodEnds: boolean;
  readonly isEstimated: boolean;
  /** At which force the stops count as closed, front and rear, where either is stated; else null. */
  readonly closedAt: string | null;
  readonly hasManySetups: boolean;
}

export function buildSheetViews(result: Result): BuildSheetView[] {
  return buildsOf(result).map((build) => ({
    id: build.id,
    isPlan: build.isPlan,
    setups: build.setups.map(({ setup }) => setup.name),
    ids: build.setups.map(({ combination }) => combination.id),
    parts: partRows(build),
    columns: heightColumns(build),
    rows: heightRows(build),
    work: workOf(build),
    cautions: sheetCautions(),
  }));
}

export function workOf({ setups }: Build): Work {
  const corners = setups.flatMap(({ combination }) => AXLE_NAMES.map((axle) => combination.axles[axle]));
  const some = (test: (corner: (typeof corners)[number]) => boolean) => corners.some(test);
  return {
    cutsSleeve: some(({ parts }) => choiceOf(parts.sleeve, 'trim_mm') > 0),
    cutsStop: some(
      ({ parts: { bumpStop } }) => choiceOf(bumpStop, 'cut_length_mm') < choiceOf(bumpStop, 'uncut_length_mm'),
    ),
    lowersGroove: some(({ parts }) => choiceOf(parts.sleeve, 'groove_drop_mm') > 0),
    hasPacker: some(({ parts }) => choiceOf(parts.bumpStop, 'packer_mm') > 0),
    hasSpacer: some(({ parts }) => choiceOf(parts.mount, 'spacer_mm') > 0),
    hasHelper: some(({ parts }) => nameOf(parts.helper) !== null),
    hasIsolator: some(({ parts }) => nameOf(parts.isolator) !== null),
    isPreloaded: some(({ values }) => (quantityOf(values, 'bench_slack_mm') ?? 0) < 0),
    isLoose: some(({ values }) => (quantityOf(values, 'bench_slack_mm') ?? 0) > 0),
    stopMeetsSleeve: some((corner) => wordOf(corner, 'stop_meets') !== 'body'),
    knowsRodEnds: corners.every(({ parts }) => nameOf(parts.rodEnd) !== null),
    isEstimated: some((corner) => wordOf(corner, 'solid_height_source') === 'estimated'),
    closedAt: closedAt(setups[0]?.combination),
    hasManySetups: setups.length > 1,
  };
}

/** Closed is geometry: a harder hit squeezes foam further. The stop is the same in every setup, or its foam is. */
function closedAt(combination: Combination | undefined): string | null {
  const forces = AXLE_NAMES.map((axle) => combination?.axles[axle].values.closed_at_force_n ?? null);
  if (forces.every((force) => force === null)) return null;
  return AXLE_NAMES.map((axle, k) => `${axle} ${withUnits(forces[k], 'force', PAGE)}`).join(', ');
}
