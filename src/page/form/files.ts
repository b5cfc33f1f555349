/** Files in and out: what is opened, what is saved, and what the page remembers until it is told to forget. */
import { elementIn, FORM_ELEMENT } from '../../report/packing/element.ts';
import { NotPacked } from '../../report/packing/faults.ts';
import { MOST } from '../../report/packing/unpack.ts';
import { type Draft, draftIn } from './draft.ts';
import { draftInReport } from './report.ts';

/** Saves a text as a file of the reader's. */
export function download(name: string, text: string, type: string): void {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // Some browsers begin to read after the click has returned.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** What was opened, or why nothing was. */
export type Opened = { readonly draft: Draft } | { readonly refused: string };

const IS_SCENARIO = /\.ya?ml$/i;
const IS_PAGE = /\.html?$/i;

/** A draft of chosen files: a scenario with or without catalogues, catalogues for the scenario at hand, or a report. */
export async function openFiles(files: readonly File[], before: Draft): Promise<Opened> {
  const large = files.find(({ size }) => size > MOST.bytes);
  if (large !== undefined)
    return { refused: `“${large.name}” is larger than ${MOST.bytes / 1e6} MB, the most that is read.` };
  const texts = await Promise.all(files.map(async (file) => ({ name: file.name, text: await file.text() })));
  const [report] = texts.filter(({ name }) => IS_PAGE.test(name));
  if (report !== undefined) {
    return texts.length > 1 ? { refused: 'A report is opened by itself: nothing was opened.' } : openPage(report);
  }
  const scenarios = texts.filter(({ name }) => IS_SCENARIO.test(name));
  if (scenarios.length > 1) return { refused: 'Only one scenario at a time: nothing was opened.' };
  const rows = texts.filter(({ name }) => !IS_SCENARIO.test(name)).map(({ name, text }) => [name, text]);
  const [scenario] = scenarios;
  const kept = scenario === undefined ? before.catalogues : {};
  return {
    draft: { scenario: scenario?.text ?? before.scenario, catalogues: { ...kept, ...Object.fromEntries(rows) } },
  };
}

/** Of a report its inputs, of this page saved filled in what was typed. */
function openPage({ name, text }: { readonly name: string; readonly text: string }): Opened {
  const refuse = (why = '') => ({ refused: `“${name}” carries no inputs that can be opened here${why}.` });
  try {
    const element = elementIn(text, FORM_ELEMENT);
    const draft =
      element === null ? draftInReport(text) : draftIn(JSON.parse(text.slice(element.from, element.end)).draft);
    return draft === null ? refuse() : { draft };
  } catch (fault) {
    // Anything else was cut off, written by hand, or comes from a later program.
    return refuse(fault instanceof NotPacked ? `: ${fault.message}` : '');
  }
}

/** The page's own storage, which a browser may refuse. */
export class Memory {
  readonly #key: string;

  constructor(name: string) {
    this.#key = name;
  }

  /** False where it can't be kept. */
  keep(draft: Draft): boolean {
    try {
      localStorage.setItem(this.#key, JSON.stringify(draft));
      return true;
    } catch {
      return false;
    }
  }

  recall(): Draft | null {
    try {
      const kept = localStorage.getItem(this.#key);
      return kept === null ? null : draftIn(JSON.parse(kept));
    } catch {
      return null;
    }
  }

  forget(): void {
    try {
      localStorage.removeItem(this.#key);
    } catch {
      // Nothing was kept either.
    }
  }
}
