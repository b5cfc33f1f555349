/** The comparison with published values as a Markdown table, for people. */
import type { Row } from './rows.ts';

export interface Comparison {
  readonly row: Row;
  /** In the row's unit. */
  readonly computed: number;
  /** How far off, over how far off it may be: 1 is the edge. */
  readonly deviation: number;
}

const HEAD =
  '| value | quantity | printed | computed | unit | off / tolerance | source |\n| --- | --- | ---: | ---: | --- | ---: | --- |\n';

export function comparisonTable(compared: readonly Comparison[]): string {
  const worst = compared.reduce((a, b) => (b.deviation > a.deviation ? b : a));
  const summary = `${compared.length} published values; largest deviation ${worst.deviation.toFixed(2)} of its tolerance (${worst.row.id}).\n`;
  return `${summary}\n${HEAD}${compared.map(line).join('\n')}\n`;
}

function line({ row, computed, deviation }: Comparison): string {
  const source = [row.source, row.edition, row.page, row.convention].filter((part) => part !== '').join(', ');
  const cells = [
    row.id,
    row.quantity,
    row.expected,
    Number(computed.toPrecision(7)),
    row.unit,
    deviation.toFixed(2),
    source,
  ];
  return `| ${cells.map((cell) => String(cell).replaceAll('|', '\\|')).join(' | ')} |`;
}
