/** What the sweep of a range of assemblies writes on: its tally, its columns, and what it remembers between them. */
import { contactLengths, giveFor, marginFor } from '../model/corner/contacts.ts';
import { stackFits } from '../model/corner/fit.ts';
import { perchLimits, sleeveStopsBumpStop, sleeveTopOf } from '../model/corner/geometry.ts';
import type { Corner } from '../model/corner/site.ts';
import { firstAt } from '../model/solve.ts';
import { type Assembly, type Columns, newColumns } from './assembly.ts';
import type { AxleLayout } from './layout.ts';
import { type CandidateClass, emptyTally, type Tally, VERDICTS } from './tally.ts';
import type { Places } from './verdict.ts';

/** Counts of what the kernel did, so that tests can see that the fast path ran. */
export interface KernelWork {
  /** Combinations counted in blocks, in runs, and stack by stack. */
  blocks: number;
  runs: number;
  single: number;
  /** Corners handed to the scalar model for their score. */
  scored: number;
}

export interface FitMask {
  readonly fitting: Uint8Array;
  readonly all: boolean;
  readonly none: boolean;
}

export interface Workspace {
  readonly layout: AxleLayout;
  readonly tally: Tally;
  readonly work: KernelWork;
  readonly columns: Columns;
  /** Per sleeve and perch the lowest and the highest place of the perch, see `placesOn`. */
  readonly places: readonly Places[];
  readonly fits: Map<string, FitMask>;
  /** Per sleeve and perch its mask, once asked for. */
  readonly masks: (FitMask | null)[];
  /** Per stack the frequency's part of the log score, and the frequency it was worked out for. */
  readonly wanted: Readonly<Record<'frequency' | 'log', Float64Array>>;
  /** Cuts of the same sleeve, by the set of sleeves asked about. */
  readonly cuts: Map<readonly number[], readonly (readonly number[])[]>;
  /** Per verdict how many sleeves and perches fell whole, all their stacks at once. */
  readonly fallen: Float64Array;
  /** All sleeves, for the many assemblies in which none stands proud. */
  readonly allSleeves: readonly number[];
  /** Per place in the perch order: how many runs begin to be high enough after it, and end before it. */
  readonly tooLow: Float64Array;
  readonly tooHigh: Float64Array;
  /** Per stack what its score is at most in this batch, NaN until asked for. */
  readonly bounds: Float64Array;
  /** Per stack its class in this batch, where the batch has one for it. */
  readonly classes: (CandidateClass | null)[];
  /** Workable stacks that are worth a score in this batch, `liveCount` of them. */
  readonly live: Int32Array;
  /** Per stack what it scores at most in this batch within some limits (lowest Infinity: not known yet). */
  readonly scores: Readonly<Record<'score' | 'lowest' | 'highest' | 'spare', Float64Array>>;
  /** Per stack the score in this batch that neither sleeve nor perch holds back, once worked out. */
  readonly free: (FreeScore | null)[];
}

/** What a sleeve and a perch hold a stack to. */
export interface Limits {
  /** Places the perch may have, mm. */
  readonly lowest: number;
  readonly highest: number;
  /** Least clearance of the sleeve beyond its margins, mm. */
  readonly spare: number;
}

/** A score that is the same within its limits and any wider ones, and not higher within others. */
export interface FreeScore extends Limits {
  readonly logScore: number;
}

export function newWorkspace(layout: AxleLayout): Workspace {
  const { count } = layout.stacks;
  return {
    layout,
    tally: emptyTally(layout.options.spring.length, count),
    work: { blocks: 0, runs: 0, single: 0, scored: 0 },
    columns: newColumns(count, layout.sides.length),
    places: layout.sleeves.flatMap((sleeve) => layout.perches.map((perch) => perchLimits(sleeve, perch))),
    fits: new Map(),
    masks: new Array<FitMask | null>(layout.sleeves.length * layout.perches.length).fill(null),
    wanted: { frequency: new Float64Array(count).fill(Number.NaN), log: new Float64Array(count) },
    cuts: new Map(),
    fallen: new Float64Array(VERDICTS),
    allSleeves: layout.sleeves.map((_, k) => k),
    live: new Int32Array(count),
    classes: new Array<CandidateClass | null>(count).fill(null),
    tooLow: new Float64Array(count + 1),
    tooHigh: new Float64Array(count + 1),
    bounds: new Float64Array(count),
    scores: {
      score: new Float64Array(count),
      lowest: new Float64Array(count),
      highest: new Float64Array(count),
      spare: new Float64Array(count),
    },
    free: new Array<FreeScore | null>(count).fill(null),
  };
}

/** Heights at which bounds are worked out; see `boundGrid`. */
export interface BoundGrid {
  /** Heights from the lowest to the highest that could count, mm; empty where none does. */
  readonly from: number;
  readonly step: number;
  readonly cells: number;
  /** Per height: damper length less seat depth (mm) and the force the spring must carry (N). */
  readonly gap: Float64Array;
  readonly force: Float64Array;
  /** Least clearance beyond its margin of the contacts that neither sleeve nor stack changes, mm. */
  readonly spare: number;
  /** The bump travel's part of the log score, the same for all stacks. */
  readonly travelLog: number;
}

/** One assembly with some of its sleeves: what holds for all their perches. */
export interface SleeveGroup {
  readonly workspace: Workspace;
  readonly number: number;
  readonly assembly: Assembly;
  readonly sleeves: readonly number[];
  readonly grid: BoundGrid;
  /** Per sleeve its least clearance beyond its margin, mm; NaN until asked for. */
  readonly sleeveSpares: Float64Array;
}

/** A group with the perches of one engagement: all its stacks share their columns. */
export interface Batch extends SleeveGroup {
  readonly perches: readonly number[];
  /** How deep the seats of these perches hold the spring, mm. */
  readonly engagement: number;
  /** How many entries of the workspace's `live` are in use; -1 before they are listed. */
  liveCount: number;
  /** The lowest perch last asked for, mm, and where in the perch order it begins. */
  readonly lowest: { value: number; begin: number };
}

/** Forgets what was remembered for the batch before. */
export function newBatch(group: SleeveGroup, perches: readonly number[], engagement: number): Batch {
  const { bounds, classes, scores, free } = group.workspace;
  bounds.fill(Number.NaN);
  classes.fill(null);
  scores.lowest.fill(Number.POSITIVE_INFINITY);
  free.fill(null);
  return { ...group, perches, engagement, liveCount: -1, lowest: { value: Number.NaN, begin: 0 } };
}

/** The perches of each engagement. */
export function perchGroups({ perches }: AxleLayout): { engagement: number; numbers: number[] }[] {
  const engagements = [...new Set(perches.map((perch) => perch.engagement))];
  return engagements.map((engagement) => ({
    engagement,
    numbers: perches.flatMap((perch, k) => (perch.engagement === engagement ? [k] : [])),
  }));
}

/** Sleeves that let the stop meet the body share columns; each that meets it itself has its own. */
export function sleeveGroups({ layout, allSleeves }: Workspace, corner: Corner): (readonly number[])[] {
  const isProud = (k: number) => {
    const sleeve = layout.sleeves[k] as Corner['sleeve'];
    return sleeveStopsBumpStop(layout.site, { ...corner, sleeve }, sleeveTopOf(sleeve));
  };
  const proud = allSleeves.filter(isProud);
  const plain = proud.length === 0 ? allSleeves : allSleeves.filter((k) => !proud.includes(k));
  return [plain, ...proud.map((k) => [k])].filter((group) => group.length > 0);
}

/** The corner of a batch with one of its sleeves, perches and stacks. */
export function cornerIn({ workspace, assembly }: Batch, sleeve: number, perch: number, stack: number): Corner {
  const { sleeves, perches, stacks } = workspace.layout;
  return {
    ...assembly.corner,
    sleeve: sleeves[sleeve] as Corner['sleeve'],
    perch: perches[perch] as Corner['perch'],
    helper: stacks.helpers[stack] ?? null,
    spring: stacks.springs[stack] as Corner['spring'],
  };
}

/** Where the perch may stand on a sleeve; no assembly changes it. */
export function placesOn({ places, layout }: Workspace, sleeve: number, perch: number): Places {
  return places[sleeve * layout.perches.length + perch] as Places;
}

/** Whether the sleeve keeps its margin to isolator, flange, washers and plate at a full bump. */
function sleeveClears(workspace: Workspace, assembly: Assembly, sleeve: number, full: number): boolean {
  return sleeveSpare(workspace, assembly, sleeve, full) >= 0;
}

/** Whether the sleeve clears, per stack. What clears at one full bump clears at every longer one, so few are worked out. */
export function sleeveTest(workspace: Workspace, assembly: Assembly, sleeve: number): (stack: number) => boolean {
  const { leastFull } = workspace.columns;
  let clearsFrom = Number.POSITIVE_INFINITY;
  let meetsUpTo = Number.NEGATIVE_INFINITY;
  return (stack) => {
    const full = leastFull[stack] as number;
    if (full >= clearsFrom) return true;
    if (full <= meetsUpTo) return false;
    const clear = sleeveClears(workspace, assembly, sleeve, full);
    if (clear) clearsFrom = full;
    else meetsUpTo = full;
    return clear;
  };
}

/**
 * Which sleeves keep their margins at a full bump, as a flag each. Cuts of one sleeve differ by their top alone, and
 * what clears at some height clears lower down, so the last cut that fails is found by halving.
 */
export function clearingSleeves({ workspace, assembly, sleeves }: SleeveGroup, full: number): Uint8Array {
  const clearing = new Uint8Array(workspace.layout.sleeves.length);
  for (const cuts of cutsOf(workspace, sleeves)) {
    const first = firstAt(cuts.length, (k) => sleeveClears(workspace, assembly, cuts[k] as number, full));
    for (let k = first; k < cuts.length; k++) clearing[cuts[k] as number] = 1;
  }
  return clearing;
}

/** Sleeves that differ by their top alone, the highest top first; worked out once for the same set of sleeves. */
function cutsOf({ layout, cuts: known }: Workspace, sleeves: readonly number[]): readonly (readonly number[])[] {
  const remembered = known.get(sleeves);
  if (remembered) return remembered;
  const groups = new Map<string, number[]>();
  for (const number of sleeves) {
    const { outerDiameter, bore } = layout.sleeves[number] as Corner['sleeve'];
    const key = `${outerDiameter}|${bore}`;
    groups.set(key, [...(groups.get(key) ?? []), number]);
  }
  const top = (number: number) => sleeveTopOf(layout.sleeves[number] as Corner['sleeve']);
  const cuts = [...groups.values()].map((group) => group.sort((one, other) => top(other) - top(one)));
  known.set(sleeves, cuts);
  return cuts;
}

/** The least of the sleeve's clearances beyond their margins at a full bump, mm; Infinity where it meets nothing. */
export function sleeveSpare({ layout }: Workspace, assembly: Assembly, number: number, full: number): number {
  const sleeve = layout.sleeves[number] as Corner['sleeve'];
  const corner = { ...assembly.corner, sleeve };
  const geometry = { ...assembly.geometry, sleeveTop: sleeveTopOf(sleeve) };
  const spares = contactLengths(layout.site, corner, geometry, 0)
    .filter(([name]) => name.startsWith('sleeve'))
    .map(([name, length]) => full - length - giveFor(corner, name) - marginFor(layout.site, corner, name));
  return Math.min(Number.POSITIVE_INFINITY, ...spares);
}

/** Which stacks fit over a sleeve and a perch; the same for all cuts of a sleeve. */
export function fitMask(workspace: Workspace, sleeve: number, perch: number): FitMask {
  const place = sleeve * workspace.layout.perches.length + perch;
  const mask = workspace.masks[place] ?? maskOf(workspace, sleeve, perch);
  workspace.masks[place] = mask;
  return mask;
}

function maskOf({ layout, fits }: Workspace, sleeveNumber: number, perchNumber: number): FitMask {
  const sleeve = layout.sleeves[sleeveNumber] as Corner['sleeve'];
  const perch = layout.perches[perchNumber] as Corner['perch'];
  const key = `${sleeve.outerDiameter}|${perch.spigotDiameter}`;
  const known = fits.get(key);
  if (known) return known;
  const { springs, helpers, count } = layout.stacks;
  const fitting = Uint8Array.from({ length: count }, (_, k) => {
    const spring = springs[k] as Corner['spring'];
    const tried = stackFits(layout.site, { sleeve, perch, spring, helper: helpers[k] ?? null });
    return tried.every((fit) => fit.spare >= fit.needed) ? 1 : 0;
  });
  const mask = { fitting, all: fitting.every((f) => f === 1), none: fitting.every((f) => f === 0) };
  fits.set(key, mask);
  return mask;
}
