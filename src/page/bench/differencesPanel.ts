/** What differs from the sweep, always in sight, and how to take it away: as scenario lines or as a message. */
import { html, type TemplateResult } from 'lit-html';
import { findingMessage } from '../../model/corner/checks.ts';
import { AXLE_NAMES } from '../../model/scenario.ts';
import { buttonView, linesView } from '../parts/views.ts';
import type { Bench } from './bench.ts';
import { differencesOf, notesOf } from './differences.ts';
import { judgeBench, verdictOf } from './findings.ts';
import { fragmentOf } from './fragment.ts';
import { ACTIONS, MESSAGE } from './words.ts';

/** What was copied, and what came of it. */
export interface Copied {
  readonly text: string;
  readonly status: string;
}

export function noteView(lines: readonly string[]): TemplateResult {
  return html`<div class="bench-note" ?hidden=${lines.length === 0}><p><strong>${ACTIONS.differs}</strong></p><ul>${linesView(lines)}</ul></div>`;
}

export function actionsView(
  isSwept: boolean,
  copied: Copied | null,
  offer: (make: (bench: Bench, swept: Bench, title: string) => string) => void,
  reset: () => void,
): TemplateResult {
  return html`<div class="bench-actions"><p class="buttons">${buttonView(ACTIONS.fragment, () => offer(fragmentOf), isSwept)}${buttonView(ACTIONS.message, () => offer(messageOf), isSwept)}${buttonView(ACTIONS.reset, reset, isSwept)}</p>
<p class="hint">${ACTIONS.hint}</p>
<div class="copied" ?hidden=${copied === null}><label for="bench-text">${ACTIONS.text}</label><textarea id="bench-text" readonly rows="8" spellcheck="false" .value=${copied?.text ?? ''}></textarea><p role="status" class="said">${copied?.status ?? ''}</p></div></div>`;
}

/** False where the browser keeps the clipboard to itself: the text is selected then, to be copied by hand. */
export async function copy(text: HTMLTextAreaElement): Promise<boolean> {
  text.select();
  try {
    await navigator.clipboard.writeText(text.value);
    return true;
  } catch {
    // Older, and without a question to the reader: copies what is selected.
    return document.execCommand('copy');
  }
}

// The bench as a message to send back: what differs, and what the model says of it.

export function messageOf(bench: Bench, swept: Bench, title: string): string {
  const verdicts = AXLE_NAMES.flatMap((axle) => {
    const judgedBench = judgeBench(bench, axle);
    const notes = notesOf(judgedBench.judged[axle].state);
    const lines = [...judgedBench.findings.map(findingMessage), ...notes].map((line) => `- ${line}`);
    return [MESSAGE.verdict(axle), verdictOf(axle, judgedBench).summary, ...lines];
  });
  return [
    MESSAGE.heading(title, bench.setup.name, bench.start.id),
    ...differencesOf(bench, swept).map(MESSAGE.change),
    ...verdicts,
    MESSAGE.caution,
    '',
  ].join('\n');
}
