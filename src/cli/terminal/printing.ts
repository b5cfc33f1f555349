/** What is said to the person: nothing in it moves a terminal's cursor or turns a line around, line ends apart. */
import { visible } from '../../report/text/escape.ts';

export function plainLines(text: string): string {
  return text.split('\n').map(visible).join('\n');
}

/** The answer, on stdout. */
export function tell(text: string): void {
  process.stdout.write(`${plainLines(text)}\n`);
}

/** What is not the answer, on stderr. */
export function remark(text: string): void {
  process.stderr.write(`${plainLines(text)}\n`);
}
