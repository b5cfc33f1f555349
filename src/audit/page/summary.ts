/** What an audit found, for the terminal. */

import { mapStrings, visible } from '../../report/text/escape.ts';
import { hanging } from '../../report/text/hanging.ts';
import { fixed, PLAIN, withUnits } from '../../report/text/numbers.ts';
import type { AuditResult, CornerNumbers, UnitAudit } from '../fit/types.ts';
import { BENCH_PLACES, causeHeadline, dimensionOfKind, KIND_LABELS, placeOf, unitTitle, VERDICTS } from './words.ts';

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
