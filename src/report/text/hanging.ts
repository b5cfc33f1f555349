/** Text for a terminal, wrapped. */

/** As wide as lines are. */
export const COLUMNS = 100;

/** Words after a lead, wrapped to the columns, later lines under the first word. */
export function hanging(lead: string, text: string): string[] {
  const rows: string[] = [];
  let row = lead;
  for (const word of text.split(' ')) {
    if (row.length > lead.length && row.length + word.length > COLUMNS) {
      rows.push(row.trimEnd());
      row = ' '.repeat(lead.length);
    }
    row += `${word} `;
  }
  return [...rows, row.trimEnd()];
}
