/** The inputs that a report carries, read in the page. */
import { decompress } from 'brotli/decompress.js';
import { isMapping } from '../../input/schema/issues.ts';
import { type Draft, draftIn } from './draft.ts';

const START = '<script type="application/json" id="springsift-result">';
const END = '</script>';

/** The scenario and the catalogues that a report was made from; null where it carries none that can be read here. */
export function draftInReport(page: string): Draft | null {
  const from = page.indexOf(START) + START.length;
  const end = page.indexOf(END, from);
  if (from < START.length || end < 0) return null;
  try {
    const { brotli } = JSON.parse(page.slice(from, end)) as { readonly brotli: string };
    const folded = Uint8Array.from(atob(brotli), (sign) => sign.charCodeAt(0));
    return draftOfInputs(JSON.parse(new TextDecoder().decode(decompress(folded))));
  } catch {
    // Not packed as reports are, or cut off.
    return null;
  }
}

function draftOfInputs(result: unknown): Draft | null {
  const inputs: readonly unknown[] = isMapping(result) && Array.isArray(result.inputs) ? result.inputs : [];
  const [scenario, ...catalogues] = inputs.filter(isMapping);
  const entries = catalogues.map(({ path, text }) => [String(path), text]);
  return draftIn({ scenario: scenario?.text, catalogues: Object.fromEntries(entries) });
}
