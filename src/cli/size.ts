/** A page that is too large to be mailed or opened on a phone is told of, and a huge one is not written unasked. */
import { failure } from './exit.ts';
import * as say from './messages.ts';

export const LARGE_BYTES = 2_000_000;
export const HUGE_BYTES = 8_000_000;

/**
 * Looks at the pages among the files before they are written.
 * @throws KnownError when one is huge and `force` is not given
 */
export function guardSize(
  files: Readonly<Record<string, string>>,
  force: boolean,
  warn: (text: string) => void = (text) => process.stderr.write(`${text}\n`),
): void {
  for (const [name, text] of Object.entries(files)) {
    if (!name.endsWith('.html')) continue;
    const bytes = Buffer.byteLength(text);
    if (bytes > HUGE_BYTES && !force) throw failure(say.hugePage(name, bytes, HUGE_BYTES));
    if (bytes > LARGE_BYTES) warn(say.largePage(name, bytes));
  }
}
