/** The full working of one combination for a terminal: each formula, the same with its numbers, its value. */

import { CHECK } from '../../model/corner/checks.ts';
import type { CriterionScore } from '../../model/corner/score.ts';
import { AXLE_NAMES, FAMILIES } from '../../model/scenario.ts';
import type { ExplainedCorner, Explanation, WorkingLine } from '../../result/records/explain.ts';
import type { Failure, Flag } from '../../result/result.ts';
import { mapStrings, visible } from '../text/escape.ts';
import { AXLE_TITLES, criterionLabel, FAMILY_LABELS } from '../text/labels.ts';
import { fixed, PLAIN, withUnits } from '../text/numbers.ts';
import { choiceText } from '../text/parts.ts';
import { COLUMNS, hanging } from '../text/textWidth.ts';

/** Widest label that stands on one line with its formula. */
const LABEL = 34;
/** Where a formula goes on that would not fit under its first equals sign. */
const SHORT_HANG = ' '.repeat(5);

export function explainText(explanation: Explanation): string {
  const shown = mapStrings(explanation, visible);
  const blocks = [
    ...heading(shown),
    ...AXLE_NAMES.flatMap((axle) => corner(AXLE_TITLES[axle], shown.axles[axle])),
    ...groups('Front and rear together', shown.pair),
    ...(shown.criteria.length > 0 ? [scores(shown)] : []),
    CAUTION,
  ];
  return `${blocks.join('\n\n')}\n`;
}

const CAUTION = [
  'Numbers for choosing parts. They do not replace measuring your own parts, going through the whole',
  'travel with the spring out, or a licensed workshop.',
].join('\n');

function heading({ id, setup, scenarioName, workable, score, failures, flags }: Explanation): string[] {
  const verdict = workable ? `works, score ${fixed(score, 3, PLAIN)} of 1` : 'does not work';
  return [
    `${id}: ${verdict}\n${scenarioName}, setup ${setup}`,
    ...(failures.length > 0 ? [failing(failures)] : []),
    ...(flags.length > 0 ? [flagLines(flags)] : []),
  ];
}

function failing(failures: readonly Failure[]): string {
  return underline(
    'Fails',
    failures.flatMap((f) => hanging(`  ${CHECK[f.check].label}: `, f.message)),
  );
}

function flagLines(flags: readonly Flag[]): string {
  const distinct = flags.filter((flag, k) => flags.findIndex((f) => f.message === flag.message) === k);
  return underline(
    'Estimates, warnings, notes',
    distinct.flatMap((f) => hanging(`  ${f.kind}: `.padEnd(12), f.message)),
  );
}

function corner(title: string, { id, parts, lines }: ExplainedCorner): string[] {
  const rows = FAMILIES.flatMap((family) =>
    hanging(`  ${FAMILY_LABELS[family].padEnd(14)}  `, choiceText(parts[family], PLAIN)),
  );
  return [underline(`${title} ${id}: parts`, rows), ...groups(title, lines)];
}

/** One block a group, in the order in which the groups first come. */
function groups(title: string, lines: readonly WorkingLine[]): string[] {
  const names = [...new Set(lines.map((line) => line.group))];
  return names.map((name) => {
    const rows = lines.filter((line) => line.group === name);
    const heading = names.length === 1 ? title : `${title}: ${name}`;
    return underline(
      heading,
      rows.flatMap((line) => workingRows(line, labelWidth(rows))),
    );
  });
}

function labelWidth(rows: readonly WorkingLine[]): number {
  return Math.max(...rows.map(({ label }) => label.length).filter((length) => length <= LABEL), 12);
}

/** `sprung load  W = m_s * g_n = 237 * 9.80665 = 2324.2 N (522.5 lbf)`, broken before an `=` where too long. */
function workingRows(line: WorkingLine, width: number): string[] {
  const margin = ' '.repeat(width + 4);
  const ownLine = line.label.length > width;
  const parts = pieces(line);
  const isLong = margin.length + line.symbol.length + (parts[0]?.length ?? 0) > COLUMNS;
  const own = isLong ? SHORT_HANG : margin;
  const lead = ownLine ? own : `  ${line.label.padEnd(width)}  `;
  const rows = ownLine ? [`  ${line.label}`] : [];
  const hang = ' '.repeat(lead.length + line.symbol.length);
  let row = lead + line.symbol;
  for (const piece of parts) {
    if (row.length + piece.length > COLUMNS && row.trim() !== line.symbol) {
      rows.push(row);
      row = hang.length + piece.length > COLUMNS ? SHORT_HANG : hang;
    }
    row += piece;
  }
  return [...rows, row];
}

function pieces({ expression, filled, value, dimension, source }: WorkingLine): string[] {
  if (value === null) return [`: ${source}`];
  const result = ` = ${withUnits(value, dimension, PLAIN)}`;
  if (expression === null) return source === 'given' ? [result] : [result, `  [${source}]`];
  // A formula that is one symbol or number fills in to what the value says anyway.
  const hasWork = filled !== null && filled !== expression && /[-+*/(]/.test(expression);
  return [` = ${expression}`, ...(hasWork ? [` = ${filled}`] : []), result];
}

function scores({ criteria, score }: Explanation): string {
  const width = Math.max(...criteria.map((c) => criterionLabel(c).length));
  const total = `  ${'weighted geometric mean'.padEnd(width)}  ${fixed(score, 3, PLAIN)}`;
  return underline('Score (Derringer & Suich 1980)', [...criteria.map((c) => scoreRow(c, width)), total]);
}

function scoreRow(c: CriterionScore, width: number): string {
  return `  ${criterionLabel(c).padEnd(width)}  ${fixed(c.desirability, 3, PLAIN)}  weight ${fixed(c.weight, 2, PLAIN)}`;
}

function underline(title: string, rows: readonly string[]): string {
  return [title, '-'.repeat(title.length), ...rows].join('\n');
}
