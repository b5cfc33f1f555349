/** Parts and cuts of a build sheet: one row a part family, front and rear side by side. */
import type { PartChoice } from '../../domain/result.ts';
import { AXLE_NAMES, type AxleName, type Family } from '../../domain/scenario.ts';
import { type Build, type Choice, choicesOf } from '../builds.ts';
import { FAMILY_LABELS } from '../labels.ts';
import { choiceOf, type Measure, measure, nameOf, quantityOf, wordOf } from '../read.ts';

export interface PartRow {
  readonly label: string;
  /** Leaves room for what was measured, left and right. */
  readonly isMeasured: boolean;
  /** Front, then rear. */
  readonly cells: readonly { readonly entries: readonly PartEntry[] }[];
}

export interface PartEntry {
  /** The setups it is for; null: for all of them. */
  readonly who: string | null;
  /** Null where the choice is to have none. */
  readonly name: string | null;
  readonly figures: readonly Figure[];
  readonly isEstimated: boolean;
}

/** `trim 20.0 mm (0.79 in)` */
export interface Figure {
  readonly label: string;
  readonly measure: Measure;
  /** What someone saws, cuts or adds. */
  readonly isCut: boolean;
}

interface RowShape {
  readonly family: Family;
  readonly isMeasured?: boolean;
  readonly figures: (choice: Choice, axle: AxleName) => readonly Figure[];
}

const ROWS: readonly RowShape[] = [
  { family: 'spring', figures: springFigures },
  { family: 'helper', figures: ({ part }) => some(part, 'free_length_mm', 'free length') },
  { family: 'damper', figures: () => [] },
  { family: 'mount', figures: ({ part }) => some(part, 'spacer_mm', 'spacer', true) },
  { family: 'isolator', figures: ({ part }) => some(part, 'thickness_mm', 'thick') },
  { family: 'bumpStop', isMeasured: true, figures: stopFigures },
  { family: 'sleeve', isMeasured: true, figures: sleeveFigures },
  { family: 'perch', figures: () => [] },
  { family: 'rodEnd', figures: rodEndFigures },
];

/** Families that nobody has on either axle are left out. */
export function partRows(build: Build): PartRow[] {
  return ROWS.flatMap(({ family, isMeasured = false, figures }) => {
    const cells = AXLE_NAMES.map((axle) => ({
      entries: choicesOf(build, axle, family).map((choice) => entryOf(choice, figures(choice, axle), axle, family)),
    }));
    const exists = cells.some(({ entries }) => entries.some(({ name }) => name !== null));
    return exists ? [{ label: FAMILY_LABELS[family], isMeasured, cells }] : [];
  });
}

function entryOf(choice: Choice, figures: readonly Figure[], axle: AxleName, family: Family): PartEntry {
  const corner = choice.built.combination.axles[axle];
  return {
    who: choice.who,
    name: nameOf(choice.part),
    figures,
    isEstimated: family === 'spring' && wordOf(corner, 'solid_height_source') === 'estimated',
  };
}

function springFigures({ part, built }: Choice, axle: AxleName): Figure[] {
  const solid = quantityOf(built.combination.axles[axle].values, 'solid_height_mm');
  return [
    figure('free length', measure(choiceOf(part, 'free_length_mm'), 'length')),
    figure('rate', measure(choiceOf(part, 'rate_n_per_mm'), 'rate')),
    figure('solid', measure(solid, 'length')),
  ];
}

function stopFigures({ part }: Choice): Figure[] {
  const length = choiceOf(part, 'cut_length_mm');
  const isCut = length < choiceOf(part, 'uncut_length_mm');
  return [
    figure(isCut ? 'cut to' : 'uncut, as bought', measure(length, 'length'), isCut),
    ...some(part, 'packer_mm', 'packer above it', true),
  ];
}

function sleeveFigures({ part, built }: Choice, axle: AxleName): Figure[] {
  const left = measure(quantityOf(built.combination.axles[axle].values, 'sleeve_left_mm'), 'length');
  const drop = some(part, 'groove_drop_mm', 'new groove lower by', true);
  const cut = some(part, 'trim_mm', 'trim', true);
  return [...cut, figure(cut.length > 0 ? 'left' : 'untrimmed', left), ...drop];
}

/** What the fit of the rod end found: full thread beyond nut and jam nut. */
function rodEndFigures({ built }: Choice, axle: AxleName): Figure[] {
  const spare = quantityOf(built.combination.axles[axle].values, 'fit_thread_end_mm');
  return spare === null ? [] : [figure('full thread beyond the jam nut', measure(spare, 'length'))];
}

function some(part: PartChoice, key: string, label: string, isCut = false): Figure[] {
  const value = choiceOf(part, key);
  return value > 0 ? [figure(label, measure(value, 'length'), isCut)] : [];
}

function figure(label: string, value: Measure, isCut = false): Figure {
  return { label, measure: value, isCut };
}
