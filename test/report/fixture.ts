/**
 * Made-up results for report tests. No figure here is computed: these are inputs of rendering, plausible enough to
 * look at, and no reference for the model.
 */
import { CHECKS, type CheckName } from '../../src/model/corner/checks.ts';
import { MARGIN_BASES } from '../../src/model/corner/coilGaps.ts';
import { fromBase32, pairId } from '../../src/model/ids.ts';
import type { AxleName, Family, Setup } from '../../src/model/scenario.ts';
import type { Dimension } from '../../src/model/units.ts';
import { type Answer, answersOf } from '../../src/report/text/answers.ts';
import { type CornerValues, cornerQuantities } from '../../src/result/quantities/corner.ts';
import { type PairValues, pairQuantities } from '../../src/result/quantities/pair.ts';
import { keyOf, type WorkingLine } from '../../src/result/quantities/quantity.ts';
import type { Explanation } from '../../src/result/records/explain.ts';
import type {
  AxleTally,
  BandReport,
  BuildSheet,
  Combination,
  CornerReport,
  InputFile,
  PartChoice,
  Result,
  SetupResult,
  TightClearance,
} from '../../src/result/result.ts';

/** Markup, script ends, formula starts, terminal codes, direction marks, line separators. */
export const HOSTILE = `=cmd|' /C x'!A0</script><script>alert(1)</script><b onclick="x">&amp;\u202Egnp\u2066\u001B[2J\u2028\u200f`;

/** Those of its characters that must never reach a terminal or a page as themselves. */
export const HIDDEN = ['\u001B', '\u202E', '\u2066', '\u200f', '\u2028'];

/** Every key of a corner, with the few values given and the rest absent. */
function cornerValues(given: CornerValues): CornerValues {
  const keys = cornerQuantities(['two up']).map((quantity) => keyOf(quantity));
  return Object.fromEntries(keys.map((key) => [key, given[key] ?? null]));
}

function pairValues(given: PairValues): PairValues {
  // Of a setup only its load cases bring quantities.
  const quantities = pairQuantities({ loadCases: [] } as unknown as Setup);
  return Object.fromEntries(quantities.map((quantity) => keyOf(quantity)).map((key) => [key, given[key] ?? null]));
}

function line(
  group: string,
  symbol: string,
  label: string,
  [value, dimension]: readonly [number, Dimension],
  source: string,
  [expression, filled]: readonly string[] = [],
): WorkingLine {
  return { group, symbol, label, value, dimension, source, expression: expression ?? null, filled: filled ?? null };
}

const LINES: readonly WorkingLine[] = [
  line('given', 'L', 'main spring free length', [200, 'length'], 'given'),
  line('given', 'S', 'main spring solid height', [78.5, 'length'], 'given'),
  line('standing', 'W', 'sprung load', [2324.17605, 'force'], 'balance of forces', ['m_s * g_n', '237 * 9.80665']),
  line('standing', 'l_base', 'damper length less raise', [412.3, 'length'], 'measured motion curve'),
  line('standing', 'slack', 'looseness at full droop', [-4.2, 'length'], 'balance of forces', [
    'l_droop - L0',
    '1 - 5.2',
  ]),
];
const HELPER_LINE = line('given', 'L_h', 'helper free length', [60, 'length'], 'given');
const PAIR_LINES: readonly WorkingLine[] = [
  line('pair', 'ratio', 'rear over front', [1.1329, 'ratio'], 'ratio', ['f_rear / f_front', '1.79 / 1.58']),
];

const BUMP_BAND: BandReport = {
  ...{ worst_low: 41.25, worst_high: 51.25, rss_low: 44.1, rss_high: 48.4 },
  ...{ contributor: 'wheel load', contributes: 1.9, measure: 'the corner on scales, driver aboard' },
};
const DAMPER_BAND: BandReport = {
  ...{ worst_low: -0.6, worst_high: 8.8, rss_low: 1.2, rss_high: 7 },
  ...{ contributor: 'how far the bump stop closes', contributes: 1.8, measure: 'the bump stop in a press, closed' },
};
const TIGHT_DAMPER: TightClearance = {
  ...{ contact: 'damper bottoming inside', clearance_mm: 4.1, worst_mm: -0.6 },
  measure: 'the bump stop in a press, closed',
};

const GAP_BAND: BandReport = {
  ...{ worst_low: 80.3, worst_high: 95.3, rss_low: 84.8, rss_high: 90.8 },
  ...{ contributor: 'free length of the main spring', contributes: 2, measure: 'the spring’s free length' },
};
const BLOCK_BAND: BandReport = { ...GAP_BAND, worst_low: 5621, worst_high: 6529, rss_low: 5744, rss_high: 6406 };

/** What workbench and workshop get of it. */
export const SHEET: BuildSheet = {
  bands: { front: { gap_snug_mm: GAP_BAND, block_load_n: BLOCK_BAND }, rear: {} },
  working: { axles: { front: LINES.slice(2), rear: [...LINES.slice(2, 4), HELPER_LINE] }, pair: PAIR_LINES },
};

interface CornerChoice
  extends Readonly<
    Record<'index' | 'spring', string> &
      Record<'freeLength' | 'rate' | 'trim' | 'perch' | 'low' | 'high' | 'frequency', number>
  > {
  readonly axle: AxleName;
  readonly helper?: string;
}

export function corner(choice: CornerChoice): CornerReport {
  return {
    id: choice.index,
    parts: partsOf(choice),
    // biome-ignore format: a table
    values: cornerValues({
      wheel_load_kg: 285, unsprung_mass_kg: 38, sprung_mass_kg: 247, sprung_load_n: 2422.24255,
      tyre_rate_n_per_mm: 210, ride_height_mm: 345, motion_ratio: 0.94, axial_force_n: 2576.85,
      free_length_mm: choice.freeLength, rate_n_per_mm: choice.rate, trim_mm: choice.trim,
      solid_height_mm: 78.5, solid_height_least_mm: 66.2, perch_mm: choice.perch, perch_below_top_mm: 22.4,
      bump_travel_mm: 46.25, droop_travel_mm: 51.5, slack_mm: -4.2, ratio_slope_per_m: -0.42,
      body_frequency_hz: choice.frequency, ride_frequency_hz: choice.frequency - 0.14,
      lowest_height_mm: choice.low, highest_height_mm: choice.high, height_coverage_pct: 82,
      clearance_coil_bind_mm: 9.6, margin_coil_bind_mm: 8, least_gap_sum_mm: 9.2, clearance_damper_mm: 4.1,
      thinnest_clearance_mm: 9.6, thinnest_spare_mm: 1.6, sleeve_left_mm: 150 - choice.trim,
      thread_below_mm: 12.5, collar_turns: 6.25, height_per_turn_mm: 2.1, lowest_perch_mm: choice.perch - 6,
      highest_perch_mm: choice.perch + 14, spring_length_mm: 148.4, seats_out_mm: 204.2, bench_slack_mm: 4.2,
      gap_out_mm: 92, gap_snug_mm: 87.8, gap_lowest_mm: 81.8, gap_highest_mm: 101.8,
      spring_travel_snug_mm: 121.5, stop_travel_snug_mm: 111.8, snug_spare_mm: 9.7, height_closed_mm: 281.4,
      closed_metal_clearance_mm: 4.1, stroke_used_pct: 41.2, block_load_n: 6075, load_1_height_mm: 331.8,
    }),
    // biome-ignore format: a table
    words: {
      stop_meets: 'sleeve', full_bump_force: 'known', solid_height_source: 'estimated',
      wire_source: 'estimated', coil_bind_margin: MARGIN_BASES.usual, mount_seat: 'fixed',
      mount_bolted: 'above', lowest_height_limit: 'least bump travel (two up)',
      highest_height_limit: 'spring loose at droop', window: 'usable', thinnest_contact: 'coil bind',
      thinnest_metal: 'damper bottoming inside',
    },
    bands: { bump_travel_mm: BUMP_BAND, clearance_damper_mm: DAMPER_BAND, ride_frequency_hz: BUMP_BAND },
    tight: choice.axle === 'front' ? [TIGHT_DAMPER] : [],
    failures: [],
    flags: [
      {
        kind: 'estimate',
        message: `${choice.axle}: the solid height of ${choice.spring} is an estimate, 66.2 mm to 78.5 mm; coil bind is judged on 78.5 mm. Measure or ask before you buy.`,
      },
      { kind: 'note', message: `${choice.axle}: thread and nuts on the rod end are not checked, no rod end is given.` },
    ],
  };
}

function partsOf({ spring, freeLength, rate, trim, helper }: CornerChoice): Record<Family, PartChoice> {
  const none: PartChoice = { name: 'none', price: null, choice: {} };
  return {
    damper: { name: 'twin-tube insert', price: 95, choice: {} },
    mount: { name: 'pillow mount', price: 60, choice: { raise_mm: 12, spacer_mm: 8 } },
    isolator: none,
    bumpStop: { name: 'foam stop', price: 12, choice: { cut_length_mm: 40, uncut_length_mm: 60, packer_mm: 0 } },
    rodEnd: none,
    sleeve: { name: 'sleeve 150', price: 40, choice: { trim_mm: trim, groove_drop_mm: 0, length_mm: 150 } },
    perch: { name: 'slim perch', price: null, choice: { height_mm: 14 } },
    helper: helper ? { name: helper, price: 20, choice: { free_length_mm: 60, rate_n_per_mm: 4 } } : none,
    spring: { name: spring, price: 55, choice: { free_length_mm: freeLength, rate_n_per_mm: rate, bore_mm: 61 } },
  };
}

export function combination(setup: string, rank: number, change: Partial<Combination> = {}): Combination {
  const freeLength = 200 - 10 * (rank % 3);
  const front = corner({
    ...{ axle: 'front', index: `F4F${rank}`, spring: `coil 60 x ${freeLength} x 50`, freeLength },
    ...{ rate: 50, trim: 20, perch: 214.31 - rank, low: 326.4 + rank, high: 361.2 - 1.5 * rank, frequency: 1.58 },
  });
  const rear = corner({
    ...{ axle: 'rear', index: `R2K${rank}`, spring: `coil 60 x ${180 + 10 * (rank % 2)} x 40`, freeLength: 180 },
    ...{ rate: 40, trim: 0, perch: 188.02 + rank, low: 338.9, high: 352.5 + rank, frequency: 1.79 },
    ...(rank % 2 === 0 ? { helper: 'helper 60' } : {}),
  });
  return {
    id: `${setup}-F4F${rank}-R2K${rank}-7Q`,
    rank,
    workable: true,
    score: 0.8123 - 0.03 * rank,
    criteria: [
      { criterion: 'bump_travel', axle: 'front', weight: 1, desirability: 0.74 },
      { criterion: 'height_coverage', axle: 'front', weight: 0.5, desirability: 0.82 },
      { criterion: 'bump_travel', axle: 'rear', weight: 1, desirability: 1 },
      { criterion: 'height_coverage', axle: 'rear', weight: 0.5, desirability: 0.4 },
      { criterion: 'balance', axle: null, weight: 1, desirability: 0.93 - 0.05 * rank },
    ],
    // biome-ignore format: a table
    values: pairValues({
      front_frequency_hz: 1.58, rear_frequency_hz: 1.79, frequency_ratio: 1.133, bounce_frequency_hz: 1.62,
      pitch_frequency_hz: 1.9, bounce_centre_mm: -2140, in_step_speed_km_per_h: 92,
    }),
    axles: { front, rear },
    failures: [],
    flags: [],
    ...(rank === 1 ? { sheet: SHEET } : {}),
    ...change,
  };
}

function tally(combinations: number, passed: number, rejected: Partial<Record<CheckName, number>>): AxleTally {
  const zero = Object.fromEntries(CHECKS.map((check) => [check, 0])) as Record<CheckName, number>;
  return { combinations, passed, rejected: { ...zero, ...rejected }, spring_cells: [] };
}

// biome-ignore format: a table
const TARGET = {
  target_height_mm: 345, wanted_from_mm: 330, wanted_to_mm: 360, least_bump_travel_mm: 35,
  good_bump_travel_mm: 60, least_droop_travel_mm: 30, frequency_from_hz: 1.3, frequency_to_hz: 2,
  wanted_frequency_hz: null,
};

export function setup(name: string, change: Partial<SetupResult> = {}): SetupResult {
  return {
    name,
    targets: { front: TARGET, rear: { ...TARGET, wanted_frequency_hz: 1.75 } },
    balance: { target: 1.12, from: 1.02, to: 1.25 },
    frequency_basis: 'body',
    bump_policy: 'bump stop fully closed',
    axles: {
      front: tally(48_600, 1_204, { fit: 8_100, sleeve_metal: 12_000, bump_travel: 9_296, coil_bind: 18_000 }),
      rear: tally(32_400, 5_020, { bump_travel: 20_380, frequency: 7_000 }),
    },
    pairs: { considered: 6_044_080, rejected_by_balance: 4_044_080, workable: 2_000_000 },
    shortlist: [1, 2, 3, 4, 5].map((rank) => combination(name, rank)),
    ...change,
  };
}

/** No front combination passes. */
export function emptySetup(name: string): SetupResult {
  const front = tally(48_600, 0, { fit: 8_100, coil_bind: 30_500, perch_low: 10_000 });
  return setup(name, {
    axles: { front, rear: tally(32_400, 5_020, { bump_travel: 27_380 }) },
    pairs: { considered: 0, rejected_by_balance: 0, workable: 0 },
    shortlist: [],
  });
}

const INPUT: InputFile = {
  ...{ path: 'scenario.yaml', sha256: 'c0ffee00'.repeat(8), bytes: 20, text: 'name: hill hatch\n# x' },
};

export function result(change: Partial<Result> = {}): Result {
  const options = {
    ...{ damper: 1, mount: 6, isolator: 2, bumpStop: 9, rodEnd: 1 },
    ...{ sleeve: 9, perch: 1, helper: 2, spring: 25 },
  };
  const axle = {
    ...{ wheel_load_kg: 285, unsprung_mass_kg: 38, sprung_mass_kg: 247, tyre_rate_n_per_mm: 210 },
    ...{ motion_pairs: 5, measured_from_mm: 270, measured_to_mm: 400, options, combinations: 48_600 },
  };
  return {
    schema: 'springsift-result',
    version: 2,
    tool: { name: 'springsift', version: '0.1.0' },
    mode: 'sweep',
    scenario: {
      name: 'Hill hatch',
      description: 'A light hatchback for hill climbs and the road between them.',
      currency: 'EUR',
      fingerprint: '1a2b3c4d',
      wheelbase_mm: 2430,
      axles: { front: axle, rear: axle },
    },
    inputs: [INPUT],
    assumptions: [
      { field: 'margins.coil_bind', value: '8 mm', source: 'common practice, no source' },
      { field: 'tolerances.rate', value: '3 %', source: 'from memory' },
    ],
    setups: [setup('low'), emptySetup('street')],
    ...change,
  };
}

/** One given build that fails two checks. */
export function build(): Result {
  const whole = combination('low', 1);
  const front: CornerReport = {
    ...whole.axles.front,
    failures: [
      {
        check: 'coil_bind',
        message: 'Coil bind before full bump, by 3.2 mm; the margin asks for 8.0 mm.',
        shortfall: 11.2,
        unit: 'mm',
      },
    ],
  };
  const failing: Combination = {
    ...whole,
    workable: false,
    score: 0,
    axles: { front, rear: whole.axles.rear },
    failures: [
      { check: 'balance', message: 'Rear over front frequency is 0.981, below 1.020.', shortfall: 0.039, unit: '' },
    ],
    working: { axles: { front: [...LINES, HELPER_LINE], rear: LINES }, pair: PAIR_LINES },
  };
  return result({ mode: 'build', setups: [setup('low', { shortlist: [failing] })] });
}

/** Every string that a file can bring is hostile, or another text. */
export function hostile(text = HOSTILE): Result {
  const plain = result();
  const nasty = (name: string): SetupResult => setup(name, { shortlist: [nastyCombination(name, text)] });
  return {
    ...plain,
    scenario: { ...plain.scenario, name: text, description: text, currency: text },
    inputs: [{ ...INPUT, path: text, text: text }],
    assumptions: [{ field: text, value: text, source: text }],
    setups: [nasty(text)],
  };
}

function nastyCombination(name: string, text: string): Combination {
  const whole = combination(name, 1);
  const nasty = (report: CornerReport): CornerReport => ({
    ...report,
    parts: Object.fromEntries(
      Object.entries(report.parts).map(([family, part]) => [family, { ...part, name: text }]),
    ) as Record<Family, PartChoice>,
    words: Object.fromEntries(Object.entries(report.words).map(([key, word]) => [key, key === 'window' ? word : text])),
    flags: [{ kind: 'estimate', message: text }],
  });
  return { ...whole, axles: { front: nasty(whole.axles.front), rear: nasty(whole.axles.rear) } };
}

export function explanation(change: Partial<Explanation> = {}): Explanation {
  const whole = combination('low', 1);
  return {
    ...{ id: whole.id, setup: 'low', scenarioName: 'Hill hatch', workable: true, failures: [], flags: [] },
    axles: {
      front: { id: 'F4F1', parts: whole.axles.front.parts, lines: LINES },
      rear: { id: 'R2K1', parts: whole.axles.rear.parts, lines: LINES },
    },
    pair: PAIR_LINES,
    criteria: whole.criteria,
    score: whole.score,
    ...change,
  };
}

/** What is bought for its first setup. */
export function firstAnswer(given: Result): Answer {
  const [answer] = answersOf(given);
  if (answer === undefined) throw new Error('The result has no answer.');
  return answer;
}

/** The same, its sums right and its ids those of its scenario, as a sweep hands it over. */
export function coherent(made: Result): Result {
  const { scenario } = made;
  const setups = made.setups.map((setup, k) => {
    const name = setup.name.replace(/[^a-z]/g, '') || `setup${k}`;
    const tally = (axle: AxleName): AxleTally => {
      const { passed, rejected } = setup.axles[axle];
      const { combinations } = scenario.axles[axle];
      const others = Object.values({ ...rejected, fit: 0 }).reduce((sum, count) => sum + count, 0);
      const all = { ...rejected, fit: combinations - passed - others };
      const falls = Object.fromEntries(Object.entries(all).filter(([, count]) => count > 0));
      const cell = { spring: 'A', free_length_mm: 200, rate_n_per_mm: 50, workable: passed, best_score: 0.5 };
      return { combinations, passed, rejected: all, spring_cells: [{ ...cell, rejected: falls }] };
    };
    const shortlist = setup.shortlist.map((one) => {
      const [front, rear] = [one.axles.front, one.axles.rear].map(({ id }) => fromBase32(id.slice(1))) as [
        number,
        number,
      ];
      return { ...one, id: pairId({ setup: name, front, rear }, scenario.fingerprint) };
    });
    return { ...setup, name, axles: { front: tally('front'), rear: tally('rear') }, shortlist };
  });
  return { ...made, setups };
}
