/** What is said of parts on the bench, for terminal and page alike. */
import { type BenchFault, type BenchState, type BenchVerdict, thinnestOnBench } from '../model/corner/bench.ts';
import { limitLabel } from '../model/corner/checks.ts';
import { CONTACT, type Contact, contactsAt } from '../model/corner/contacts.ts';
import { FIT } from '../model/corner/fit.ts';
import { capital } from '../model/corner/messages.ts';
import { type Snug, snugAt } from '../model/corner/snug.ts';
import type { Part } from '../model/parts.ts';
import { AXLE_NAMES, type AxleOptions, type BenchAxle, FAMILIES, type Family } from '../model/scenario.ts';
import { FAMILY_LABELS } from '../report/text/labels.ts';
import { count, fixed, type NumberStyle, PAGE, withUnits } from '../report/text/numbers.ts';
import { shareText, takesText } from '../report/text/settling.ts';
import type { AxleFitting, Fitted } from './fitting.ts';
import { type AnswerKey, assumedShare, type Settling, spreadOf } from './settle.ts';

/** A line of an answer: what it is about, and what is said. */
export interface Line {
  readonly about: string;
  readonly text: string;
}

const VERDICTS: Readonly<Record<BenchVerdict, string>> = {
  works: 'YES, it fits.',
  depends: 'IT DEPENDS on what was not measured.',
  fails: 'NO, it does not fit.',
};

/** The answer in one line; a fit, or none, by less than it is sure of is neither, nor one by lengths alone. */
export function verdictLine({ axle, best, settlings }: AxleFitting, style: NumberStyle): string {
  const [first] = best;
  if (first === undefined) return '';
  const say = (text: string) => `${capital(axle)}: ${text}`;
  const { verdict, state } = first;
  const spread = spreadOf(settlings, 'range');
  if (verdict === 'works' && spread > state.range) {
    const [range, doubt] = [state.range, spread].map((value) => withUnits(value, 'length', style));
    return say(`PERHAPS: there is ${range} to turn the perch in, sure to ${doubt} only. Measure first.`);
  }
  const { sure } = first.judgement;
  if (verdict === 'fails' && sure.every(({ kind }) => kind === 'range') && spread > -state.range) {
    const [lack, doubt] = [-state.range, spread].map((value) => withUnits(value, 'length', style));
    return say(`PERHAPS NOT: ${lack} are lacking, sure to ${doubt} only. Measure first.`);
  }
  if (verdict === 'works' && first.judgement.state.unjudged.length > 0) {
    return say('YES by its lengths; what has to pass through what was not measured.');
  }
  return say(VERDICTS[verdict]);
}

/** The whole answer for one combination, line by line. */
export function answerLines(fitting: AxleFitting, style: NumberStyle): readonly Line[] {
  const [best] = fitting.best;
  if (best === undefined) return [];
  const mm = (value: number) => withUnits(value, 'length', style);
  const { settlings } = fitting;
  if (best.verdict === 'fails') {
    return [
      ...faultLines(best, style),
      ...changeLines(best, style),
      ...helpLines(fitting, style),
      ...openLines(best),
      ...settleLines(settlings, style),
    ];
  }
  return [
    ...rangeLines(best, settlings, mm, style),
    ...wheelLines(fitting.bench, best, mm, style),
    ...inwardsLines(best.state, mm),
    ...snugLines(best.state, mm),
    ...openLines(best),
    ...settleLines(settlings, style),
  ];
}

type Millimetres = (value: number) => string;

function rangeLines({ state }: Fitted, settlings: readonly Settling[], mm: Millimetres, style: NumberStyle): Line[] {
  const { low, high, range } = state;
  const about = (key: AnswerKey) => `${style === PAGE ? '±' : '+-'} ${fixed(spreadOf(settlings, key), 1, style)}`;
  return [
    {
      about: 'perch seat',
      text: `${mm(low.perch)} ${about('low')} to ${mm(high.perch)} ${about('high')} above the lower eye: ${mm(range)} to turn it in`,
    },
    { about: '', text: `lowest: ${limitLabel(low.limit)}; highest: ${limitLabel(high.limit)}` },
  ];
}

function wheelLines(bench: BenchAxle, { wheel, state }: Fitted, mm: Millimetres, style: NumberStyle): Line[] {
  if (wheel === null) {
    const why = whyNoHeight(bench, state.corner);
    return why === null ? [] : [{ about: 'ride height', text: why }];
  }
  const { low, middle, high, lowLimit, highLimit, isTyreJudged } = wheel;
  const hertz = (value: number) => withUnits(value, 'frequency', style);
  const notJudged = isTyreJudged ? '' : '; tyre against arch not judged';
  return [
    {
      about: 'ride height',
      text: `${mm(low.height)} to ${mm(high.height)} hub to arch, perch at ${mm(low.perch)} to ${mm(high.perch)}`,
    },
    { about: '', text: `lowest: ${limitLabel(lowLimit)}; highest: ${limitLabel(highLimit)}${notJudged}` },
    {
      about: 'in the middle',
      text: `${mm(middle.height)}: bump travel ${mm(middle.bumpTravel)}, droop travel ${mm(middle.droopTravel)}, body frequency ${hertz(middle.frequency)}`,
    },
  ];
}

/** Null where nobody asked: neither load nor motion was given. */
function whyNoHeight({ wheel, lacks }: BenchAxle, { spring, helper }: BenchState['corner']): string | null {
  if (lacks !== undefined) return `not known: the ${lacks} of the wheel was not given`;
  if (wheel === null) return null;
  if (Number.isNaN(spring.rate)) return 'not known: the rate of the spring was not given';
  if (Number.isNaN(helper?.rate ?? 0)) return 'not known: the rate of the helper spring was not given';
  return 'none is safe: nothing is left between its limits';
}

/** What meets one after the other as the damper goes in, the perch in the middle of its range. */
function inwardsLines(state: BenchState, mm: Millimetres): Line[] {
  const { geometry, corner, low, high } = state;
  const perch = (low.perch + high.perch) / 2;
  const met = contactsAt(state.site, corner, geometry, perch, geometry.closedLength)
    .filter(({ name }) => CONTACT[name].part !== 'tyre')
    .sort((a, b) => a.clearance - b.clearance);
  const { clearance, margin, name } = thinnestOnBench(state);
  return [
    {
      about: 'on the way in',
      text: `stop met at ${mm(geometry.stopLength)}, closed at ${mm(geometry.closedLength)}; beyond it ${met.map((c) => contactText(c, mm)).join(', ')}`,
    },
    { about: 'thinnest', text: `${CONTACT[name].label}: ${mm(clearance)}, ${mm(margin)} asked for` },
  ];
}

function contactText({ name, clearance }: Contact, mm: Millimetres): string {
  return `${CONTACT[name].label} ${mm(clearance)}`;
}

/** The bench test at both ends of the range, and the spring at full droop. */
function snugLines({ corner, geometry, low, high }: BenchState, mm: Millimetres): Line[] {
  const [lowest, highest] = [snugAt(corner, geometry, low.perch), snugAt(corner, geometry, high.perch)];
  return [
    {
      about: 'spring just snug',
      text: `gap to the stop ${mm(lowest.gap)} at the lowest perch, ${mm(highest.gap)} at the highest`,
    },
    {
      about: 'damper fully out',
      text: `${droopText(lowest, mm)} at the lowest perch, ${droopText(highest, mm)} at the highest`,
    },
  ];
}

function droopText({ preload, looseness }: Snug, mm: Millimetres): string {
  return looseness > 0 ? `spring loose by ${mm(looseness)}` : `spring squeezed by ${mm(preload)}`;
}

// What fails, and what would mend it.

function faultLines({ judgement }: Fitted, style: NumberStyle): Line[] {
  return judgement.sure.map((fault) => ({ about: 'lacks', text: faultText(fault, style) }));
}

function faultText(fault: BenchFault, style: NumberStyle): string {
  const by = withUnits(fault.short, 'length', style);
  if (fault.kind === 'contact') return `${CONTACT[fault.name].label}: ${by} short of the clearance asked for`;
  if (fault.kind === 'size') return `${FIT[fault.name].short}: ${by} short`;
  return `no safe place for the perch: “${limitLabel(fault.low)}” lies ${by} above “${limitLabel(fault.high)}”`;
}

function changeLines({ judgement, state }: Fitted, style: NumberStyle): Line[] {
  return judgement.sure.flatMap((fault) => changesFor(fault, state, style).map((text) => ({ about: 'change', text })));
}

/** The change that was tried and makes something fit, with what is then left. */
function helpLines({ would }: AxleFitting, style: NumberStyle): Line[] {
  if (would === null) return [];
  const about = 'helps most';
  if (would.helps === null) {
    return [{ about, text: 'neither another trim nor a generic helper alone: another spring, see what would fit' }];
  }
  const { state, change, isSure } = would.helps;
  const [low, high, range] = [state.low.perch, state.high.perch, state.range].map((mm) =>
    withUnits(mm, 'length', style),
  );
  const trim = withUnits(state.corner.sleeve.trim, 'length', style);
  const how = change === 'trim' ? `the sleeve trimmed by ${trim}` : `add ${state.corner.helper?.name ?? ''}`;
  const ifMeasured = isSure ? '' : ', if what was not measured passes';
  return [
    { about, text: `${how}: then the perch seat goes from ${low} to ${high}, ${range} to turn it in${ifMeasured}` },
  ];
}

/** Any one of these mends a fault, as far as it goes; a packer lets the stop close earlier. */
function changesFor(fault: BenchFault, { corner }: BenchState, style: NumberStyle): string[] {
  const by = withUnits(fault.short, 'length', style);
  const earlier = `a packer of ${by} above the bump stop, or a stop that closes that much earlier`;
  if (fault.kind === 'size') return [`other parts: ${FIT[fault.name].short} needs ${by} more`];
  if (fault.kind === 'range') return rangeChanges(fault, by, earlier);
  const { part } = CONTACT[fault.name];
  const room = corner.sleeve.length - corner.sleeve.trim;
  if (part === 'sleeve' && fault.short < room) return [`trim the sleeve ${by} more, or ${earlier}`];
  return [earlier];
}

function rangeChanges(fault: Extract<BenchFault, { kind: 'range' }>, by: string, earlier: string): string[] {
  const changes: Readonly<Record<string, string>> = {
    'spring_loose coil_bind': `a spring with ${by} more between free length and solid height, a helper spring with at least that much travel, or ${earlier}`,
    'spring_loose perch_high': `a spring ${by} longer, or the sleeve trimmed that much less`,
    'perch_low coil_bind': `a spring ${by} shorter when solid, a perch and lock ring that much lower, or ${earlier}`,
    'perch_low perch_high': `the sleeve trimmed ${by} less`,
  };
  return [changes[`${fault.low} ${fault.high}`] ?? `another spring: the two limits are ${by} apart`];
}

// What was not measured, and what would settle most.

/** Diameters that decide whether parts pass each other, and were not measured. */
function openLines({ judgement }: Fitted): Line[] {
  const { unjudged, contacts, corner } = judgement.state;
  const open = contacts.filter(({ name }) => !judgement.sure.some((f) => f.kind === 'contact' && f.name === name));
  const isOpen = (name: Contact['name']) => judgement.faults.some((f) => f.kind === 'contact' && f.name === name);
  const meeting = open.filter(({ name }) => isOpen(name)).map(({ name }) => CONTACT[name].label);
  const missing = unmeasuredIn(corner);
  if (missing.length === 0) return [];
  const decides = meeting.length > 0 ? ` It decides: ${meeting.join(', ')}.` : '';
  const fits = unjudged.length > 0 ? ` Not judged: ${unjudged.map((name) => FIT[name].short).join(', ')}.` : '';
  return [{ about: 'not measured', text: `${missing.join(', ')}.${decides}${fits}` }];
}

function unmeasuredIn(corner: BenchState['corner']): string[] {
  return FAMILIES.flatMap((family) => {
    const part = corner[family] as unknown as Readonly<Record<string, unknown>> | null;
    const lacking = Object.entries(part ?? {})
      .filter(([field, value]) => Number.isNaN(value) && field in DIAMETERS)
      .map(([field]) => DIAMETERS[field]);
    return lacking.length > 0 ? [`${FAMILY_LABELS[family]} (${lacking.join(', ')})`] : [];
  });
}

const DIAMETERS: Readonly<Record<string, string>> = {
  bodyDiameter: 'diameter of the body',
  bore: 'bore',
  outerDiameter: 'outer diameter',
  washerDiameter: 'diameter of the washers',
  diameter: 'diameter',
  packerDiameter: 'diameter of the packer',
  couplerBore: 'bore of the coupler',
};

/** `how far the bump stop closes 40 % (assumed), motion ratio 16 %` */
function settleText(settlings: readonly Settling[], style: NumberStyle): string {
  return settlings
    .slice(0, 3)
    .map(({ label, share, isAssumed }) => `${label} ${shareText(share, style)}${isAssumed ? ' (assumed)' : ''}`)
    .join(', ');
}

/** For the head of the page; null where nothing is assumed. */
export function restsInShort({ axle, settlings }: AxleFitting): string | null {
  const share = assumedShare(settlings);
  if (share === 0) return null;
  return `${capital(axle)}: ${shareText(share, PAGE)} of the spread of this answer rests on assumed values. What settles it most: ${settleText(settlings, PAGE)}.`;
}

/** The measurements that settle the answer most, how to take the first of them. */
function settleLines(settlings: readonly Settling[], style: NumberStyle): Line[] {
  const [first] = settlings;
  if (first === undefined) return [];
  return [
    {
      about: 'rests on',
      text: `${shareText(assumedShare(settlings), style)} of its spread on usual values that nobody measured; most on ${settleText(settlings, style)}`,
    },
    { about: 'measure first', text: `${first.label}: ${first.how} Takes: ${takesText(first)}.` },
  ];
}

/** How many combinations fit. */
export function countText({ combinations, counts, failing }: AxleFitting, style: NumberStyle): string {
  const number = (value: number) => count(value, style);
  const depends = counts.depends > 0 ? `, ${number(counts.depends)} depend on what was not measured` : '';
  const most = failing[0] ? `; most fail at: ${failing[0].label}, ${number(failing[0].count)}` : '';
  return `${number(counts.works)} of ${number(combinations)} fit${depends}${most}`;
}

/** Which of the alternatives a combination takes: only families that have more than one. */
export function choiceTextOf(options: AxleOptions, corner: BenchState['corner'], style: NumberStyle): string {
  const varied = FAMILIES.filter((family) => options[family].length > 1);
  const families = varied.length > 0 ? varied : (['spring'] as const);
  return families.map((family) => partText(family, corner[family], style)).join(', ');
}

function partText(family: Family, part: Part | null, style: NumberStyle): string {
  const label = FAMILY_LABELS[family];
  if (part === null) return `no ${label}`;
  const sizes = SIZES[family].flatMap(([field, word]) => {
    const value = (part as unknown as Readonly<Record<string, number>>)[field];
    return value === undefined || Number.isNaN(value) ? [] : [`${word}${withUnits(value, 'length', style)}`];
  });
  const plain = FAMILY_NAMES[family] ?? label;
  // A name that nobody gave says no more than its family, but for its number.
  const name = part.name.startsWith(plain) ? part.name.replace(plain, label) : `${label} ${part.name}`;
  return [name, ...sizes].join(' ');
}

const FAMILY_NAMES: Readonly<Partial<Record<Family, string>>> = { spring: 'spring', mount: 'mount' };

/** The sizes that tell choices of a family apart. */
const SIZES: Readonly<Record<Family, readonly (readonly [field: string, word: string])[]>> = {
  damper: [['extended', '']],
  mount: [['spacer', 'spacer ']],
  isolator: [['thickness', '']],
  bumpStop: [['length', '']],
  rodEnd: [],
  sleeve: [['trim', 'trim ']],
  perch: [],
  helper: [['freeLength', '']],
  spring: [['freeLength', '']],
};

/** Rear over front frequency of the best of both axles in the middle of their heights; null unless both have one. */
export function balanceText(fittings: readonly AxleFitting[], style: NumberStyle): string | null {
  const [front, rear] = AXLE_NAMES.map((axle) => {
    const best = fittings.find((fitting) => fitting.axle === axle)?.best[0];
    return best === undefined || best.verdict === 'fails' ? undefined : best.wheel?.middle.frequency;
  });
  if (front === undefined || rear === undefined) return null;
  return `Rear over front frequency, both in the middle of their heights: ${fixed(rear / front, 3, style)}.`;
}
