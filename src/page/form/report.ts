/** The inputs that a report carries, read in the page. */
import { BrotliDecompress } from 'brotli/dec/decode.js';
import { isMapping } from '../../input/schema/issues.ts';
import { elementIn, RESULT_ELEMENT } from '../../report/packing/element.ts';
import { NotPacked } from '../../report/packing/faults.ts';
import { type Limits, MOST, tooLarge, unpackBy } from '../../report/packing/unpack.ts';
import { type Draft, draftIn } from './draft.ts';

/**
 * The scenario and the catalogues that a report was made from; null where it carries none that can be read here.
 * @throws NotPacked where what it carries is damaged, or more than is read
 */
export function draftInReport(page: string, most: Limits = MOST): Draft | null {
  const element = elementIn(page, RESULT_ELEMENT);
  if (element === null || element.end < 0) return null;
  return draftOfInputs(unpackBy(unfold, JSON.parse(page.slice(element.from, element.end)), most));
}

function draftOfInputs(result: unknown): Draft | null {
  const inputs: readonly unknown[] = isMapping(result) && Array.isArray(result.inputs) ? result.inputs : [];
  const [scenario, ...catalogues] = inputs.filter(isMapping);
  const entries = catalogues.map(({ path, text }) => [String(path), text]);
  return draftIn({ scenario: scenario?.text, catalogues: Object.fromEntries(entries) });
}

/** Memory is taken for what has been unfolded, not for what is said to come. */
function unfold(base64: string, most: number): Uint8Array {
  const folded = bytesOf(base64);
  const parts: Uint8Array[] = [];
  let [read, size] = [0, 0];
  const source = {
    read: (into: Uint8Array, from: number, count: number) => {
      const part = folded.subarray(read, read + count);
      into.set(part, from);
      read += part.length;
      return part.length;
    },
  };
  const write = (part: Uint8Array, count: number) => {
    size += count;
    if (size > most) throw tooLarge(most);
    parts.push(part.slice(0, count));
    return count;
  };
  try {
    BrotliDecompress(source, { buffer: { length: Number.POSITIVE_INFINITY }, write });
  } catch (error) {
    throw error instanceof NotPacked ? error : new NotPacked('brotli', 'it does not unfold');
  }
  return joined(parts, size);
}

function bytesOf(base64: string): Uint8Array {
  try {
    return Uint8Array.from(atob(base64), (sign) => sign.charCodeAt(0));
  } catch {
    throw new NotPacked('brotli', 'not base64');
  }
}

function joined(parts: readonly Uint8Array[], size: number): Uint8Array {
  const whole = new Uint8Array(size);
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
