/** Files in and out: what is opened, what is saved, and what the page remembers until it is told to forget. */
import { type Draft, draftIn, SCENARIO_NAME } from './draft.ts';
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
  const texts = await Promise.all(files.map(async (file) => ({ name: file.name, text: await file.text() })));
  const [report] = texts.filter(({ name }) => IS_PAGE.test(name));
  if (report !== undefined) {
    const draft = texts.length > 1 ? null : draftInPage(report.text);
    return draft === null ? { refused: `“${report.name}” carries no inputs that can be opened here.` } : { draft };
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
function draftInPage(page: string): Draft | null {
  const [, data = ''] = new RegExp(`<script type="application/json" id="${DATA}">(.*?)</script>`, 's').exec(page) ?? [];
  if (data === '') return draftInReport(page);
  try {
    return draftIn((JSON.parse(data) as { readonly draft?: unknown }).draft);
  } catch {
    return null;
  }
}

/** The element that holds what the page begins with. */
export const DATA = 'springsift-form';

export const SCENARIO_FILE = SCENARIO_NAME;

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
