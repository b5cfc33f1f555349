/** The audit as one HTML page that asks for nothing, runs nothing, and prints. */
import { type Dimension, innerUnit } from '../../model/units.ts';
import { renderPage } from '../../report/frame/templates.ts';
import { cautionViews } from '../../report/text/cautions.ts';
import { anchorOf, mapStrings, visible, visibleInPage } from '../../report/text/escape.ts';
import { fixed, PAGE, PLAIN, unitSymbol, withUnits } from '../../report/text/numbers.ts';
import { measure } from '../../report/text/parts.ts';
import { hanging } from '../../report/text/textWidth.ts';
import type { Correction } from '../fit/corrections.ts';
import { dimensionOf } from '../fit/parameters.ts';
import type {
  AuditResult,
  BenchReport,
  CornerNumbers,
  MeasurementReport,
  StandingReport,
  UnitAudit,
} from '../fit/types.ts';
import {
  assumptionOf,
  BENCH_PLACES,
  causeHeadline,
  causeText,
  chanceText,
  dimensionOfKind,
  KIND_LABELS,
  PARAMETER_LABELS,
  placeOf,
  unitTitle,
  VERDICTS,
} from './words.ts';

export async function auditHtml(audit: AuditResult): Promise<string> {
  const { scenario, setup, combination, units, inputs, assumptions, tool } = mapStrings(audit, visibleInPage);
  return renderPage('audit', {
    ...{ scenario, setup, combination, tool, inputs, assumptions },
    several: units.length > 1,
    units: units.map(unitView),
    cautions: cautionViews(),
  });
}

const length = (value: number | null) => measure(value, 'length');

function unitView(unit: UnitAudit) {
  const title = unitTitle(unit);
  return {
    title,
    anchor: anchorOf(`unit-${title.toLowerCase()}`),
    parts: unit.parts.helper === null ? unit.parts.spring : `${unit.parts.spring} with ${unit.parts.helper}`,
    cause: causeView(unit),
    measurements: unit.measurements.map(measurementView),
    unused: unit.unused.map(({ kind, why }) => ({ label: KIND_LABELS[kind], why })),
    notes: unit.notes,
    bench: unit.bench.map((b) => benchView(b, unit.full_bump)),
    underLoad: unit.full_bump === 'load',
    answer: answerView(unit.corrected),
    rows: rowsOf(unit.predicted, unit.corrected),
    corrections: unit.corrections.map(correctionView),
    standing: unit.standing === null ? null : standingView(unit.standing),
    failures: unit.failures.map(({ message }) => message),
  };
}

function causeView(unit: UnitAudit) {
  const { verdict, nothing_wrong: nothing, ranked, named } = unit.cause;
  return {
    ...causeHeadline(unit, PAGE),
    bad: verdict !== 'consistent',
    ranked:
      ranked.length === 0
        ? null
        : [
            ...ranked.map((one, k) => fitView(causeText(one, PAGE), one, k < named)),
            fitView('nothing is wrong', nothing, false),
          ],
    misfit: fixed(nothing.misfit, 2, PAGE),
    chance: chanceText(nothing.chance),
  };
}

function fitView(
  text: string,
  { misfit, chance }: { readonly misfit: number; readonly chance: number },
  meant: boolean,
) {
  return { text, misfit: fixed(misfit, 2, PAGE), chance: chanceText(chance), meant };
}

function measurementView(m: MeasurementReport) {
  const dimension = dimensionOfKind(m.kind);
  const value = (number: number) => measure(number, dimension);
  return {
    label: KIND_LABELS[m.kind],
    place: placeOf(m, PAGE),
    unit: unitOf(dimension),
    predicted: value(m.predicted),
    low: value(m.rss_low),
    high: value(m.rss_high),
    worstLow: value(m.worst_low),
    worstHigh: value(m.worst_high),
    measured: value(m.measured),
    off: signed(m.measured - m.predicted, dimension),
    verdict: VERDICTS[m.verdict],
    beyond: m.verdict === 'beyond',
  };
}

function unitOf(dimension: Dimension): string {
  return unitSymbol(innerUnit(dimension), PAGE);
}

function signed(value: number, dimension: Dimension): string {
  const { metric } = measure(value, dimension);
  return value > 0 && Number(metric) !== 0 ? `+${metric}` : metric;
}

function benchView(b: BenchReport, policy: UnitAudit['full_bump']) {
  const enough = b.spare_mm >= b.margin_mm;
  return {
    where: BENCH_PLACES[b.where],
    perch: length(b.perch_mm),
    spring: length(b.spring_travel_mm),
    gap: length(b.gap_mm),
    squeeze: length(b.stop_squeeze_mm),
    give: length(b.give_mm),
    stop: length(b.stop_travel_mm),
    spare: length(b.spare_mm),
    margin: length(b.margin_mm),
    short: !enough,
    verdict: enough ? 'enough' : policy === 'load' ? 'not with the stop closed' : 'not enough',
    note: benchNote(b),
  };
}

function benchNote({ preload_mm: preload, looseness_mm: loose }: BenchReport): string {
  if (preload > 0)
    return `not to be seen on a bench: fully extended, the damper squeezes the spring by ${withUnits(preload, 'length', PAGE)}`;
  return `fully extended, the spring is loose by ${withUnits(loose, 'length', PAGE)}`;
}

/** What to do: where to set the perch, and between which places it may stand. */
function answerView(corrected: CornerNumbers) {
  const { perch_mm: perch, target_height_mm: height, perch_change_mm: change, collar_turns: turns, window } = corrected;
  const usable = window?.usable === true;
  return {
    height: length(height),
    perch: length(perch),
    change: change === null ? null : { by: length(Math.abs(change)), way: change < 0 ? 'down' : 'up' },
    turns: turns === null ? null : fixed(Math.abs(turns), 1, PAGE),
    window: usable ? { low: endView(window.low), high: endView(window.high) } : null,
    outside: usable && (perch < (window.low.perch_mm ?? perch) || perch > (window.high.perch_mm ?? perch)),
  };
}

function endView({ perch_mm: perch, height_mm: height, limit }: NonNullable<CornerNumbers['window']>['low']) {
  return { perch: length(perch), height: length(height), limit };
}

/** Predicted and corrected beside each other. */
function rowsOf(predicted: CornerNumbers, corrected: CornerNumbers) {
  const row = (
    label: string,
    read: (n: CornerNumbers) => number | null,
    dimension: Dimension = 'length',
    margin: number | null = null,
  ) => {
    const [before, after] = [read(predicted), read(corrected)];
    return {
      label,
      unit: unitOf(dimension),
      predicted: measure(before, dimension),
      corrected: measure(after, dimension),
      change: before === null || after === null ? PAGE.none : signed(after - before, dimension),
      margin: margin === null ? null : measure(margin, dimension),
      short: margin !== null && after !== null && after < margin,
    };
  };
  return [
    row('perch for the target height', (n) => n.perch_mm),
    row('lowest safe perch', (n) => (n.window?.usable ? n.window.low.perch_mm : null)),
    row('highest safe perch', (n) => (n.window?.usable ? n.window.high.perch_mm : null)),
    row('lowest height', (n) => (n.window?.usable ? n.window.low.height_mm : null)),
    row('highest height', (n) => (n.window?.usable ? n.window.high.height_mm : null)),
    row('bump travel left, at the wheel', (n) => n.bump_travel_mm),
    row('droop travel left, at the wheel', (n) => n.droop_travel_mm),
    row('body frequency', (n) => n.body_frequency_hz, 'frequency'),
    ...corrected.clearances.map(({ contact, margin_mm: margin }) =>
      row(
        `clearance, ${contact}`,
        (n) => n.clearances.find((c) => c.contact === contact)?.clearance_mm ?? null,
        'length',
        margin,
      ),
    ),
  ];
}

function correctionView(correction: Correction) {
  const dimension = dimensionOf(correction.parameter);
  return {
    label: PARAMETER_LABELS[correction.parameter],
    unit: unitOf(dimension),
    from: measure(correction.from, dimension),
    to: measure(correction.to, dimension),
    how: correction.basis === 'measured' ? 'measured' : `implied by: ${KIND_LABELS[correction.by]}`,
    assumption: assumptionOf(correction),
  };
}

function standingView({ blamed, believed, alternatives }: StandingReport) {
  return {
    alternatives: alternatives.map(({ parameter, from, to, perch_mm: perch }) => {
      const dimension = dimensionOf(parameter);
      return {
        label: PARAMETER_LABELS[parameter],
        unit: unitOf(dimension),
        from: measure(from, dimension),
        to: measure(to, dimension),
        perch: length(perch),
        taken: believed && parameter === blamed,
      };
    }),
  };
}

// What an audit found, for the terminal.

export function auditSummary(audit: AuditResult): string {
  const shown = mapStrings(audit, visible);
  const title = `${shown.scenario}: ${shown.combination}, setup ${shown.setup}`;
  return `${[title, ...shown.units.map(unitBlock)].join('\n\n')}\n`;
}

function unitBlock(unit: UnitAudit): string {
  const { lead, rest } = causeHeadline(unit, PLAIN);
  return [
    unitTitle(unit).toLowerCase(),
    ...unit.measurements.filter(({ verdict }) => verdict !== 'likely').map(disagreementRow),
    row(unit.cause.verdict === 'consistent' ? 'agrees' : 'CAUSE', `${lead} ${rest}`),
    ...unit.unused.map(({ kind, why }) => row('not used', `${KIND_LABELS[kind]}: ${why}.`)),
    ...unit.notes.map((note) => row('note', note)),
    ...benchRows(unit),
    ...correctedRows(unit),
    ...unit.failures.map(({ message }) => row('FAILS', message)),
  ].join('\n');
}

function disagreementRow(m: UnitAudit['measurements'][number]): string {
  const dimension = dimensionOfKind(m.kind);
  const place = placeOf(m, PLAIN);
  const where = place === '' ? '' : ` (${place})`;
  const text = `${KIND_LABELS[m.kind]}${where}: ${withUnits(m.measured, dimension, PLAIN)}, predicted ${withUnits(m.predicted, dimension, PLAIN)}: ${VERDICTS[m.verdict]}`;
  return row(m.verdict === 'beyond' ? 'BEYOND' : 'wide', text);
}

function benchRows({ bench }: UnitAudit): string[] {
  return bench
    .filter(({ where }) => where !== 'highest safe')
    .map((b) => {
      const mm = (value: number) => withUnits(value, 'length', PLAIN);
      const text = `${BENCH_PLACES[b.where]}: spring gives ${mm(b.spring_travel_mm)}, gap ${mm(b.gap_mm)} and stop's squeeze ${mm(b.stop_squeeze_mm)} ask ${mm(b.stop_travel_mm)}; ${mm(b.spare_mm)} to coil bind with the stop closed`;
      return row('bench', text);
    });
}

function correctedRows({ corrected, predicted }: UnitAudit): string[] {
  const { window } = corrected;
  const safe = window?.usable
    ? `perch from ${end(window.low)} to ${end(window.high)}`
    : 'no place of the perch is safe';
  return [
    row('perch', `${perchText(corrected)}; predicted ${withUnits(predicted.perch_mm, 'length', PLAIN)}`),
    row('safe', safe),
  ];
}

function end({ perch_mm: perch, height_mm: height, limit }: NonNullable<CornerNumbers['window']>['low']): string {
  return `${withUnits(perch, 'length', PLAIN)} (height ${withUnits(height, 'length', PLAIN)}, ${limit})`;
}

/** The perch for the target height, and how far the collar has to go for it. */
function perchText({
  perch_mm: perch,
  target_height_mm: height,
  perch_change_mm: change,
  collar_turns: turns,
}: CornerNumbers): string {
  const at = `${withUnits(perch, 'length', PLAIN)} for a height of ${withUnits(height, 'length', PLAIN)}`;
  if (change === null) return at;
  const way = change < 0 ? 'down' : 'up';
  const collar = turns === null ? '' : `, ${fixed(Math.abs(turns), 1, PLAIN)} turns`;
  return `${at}: ${withUnits(Math.abs(change), 'length', PLAIN)} ${way}${collar}`;
}

function row(label: string, text: string): string {
  return hanging(`  ${label.padEnd(10)}`, text).join('\n');
}
