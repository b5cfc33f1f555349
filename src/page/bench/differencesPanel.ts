/** What differs from the sweep, always in sight, and how to take it away: as scenario lines or as a message. */
import { findingMessage } from '../../model/corner/checks.ts';
import { AXLE_NAMES } from '../../model/scenario.ts';
import type { Bench } from './bench.ts';
import { differencesOf, notesOf } from './differences.ts';
import { element, setItems, setText } from './element.ts';
import { judgeBench, verdictOf } from './findings.ts';
import { fragmentOf } from './fragment.ts';
import { ACTIONS, MESSAGE, NOTE } from './words.ts';

export interface DifferencesPanel {
  /** The note, and the buttons with what they copied. */
  readonly note: HTMLElement;
  readonly element: HTMLElement;
  readonly show: (bench: Bench, swept: Bench) => void;
}

export function createDifferencesPanel(title: string, reset: () => void): DifferencesPanel {
  const list = element('ul');
  const note = element(
    'div',
    { class: 'bench-note', hidden: true },
    element('p', {}, element('strong', {}, ACTIONS.differs)),
    list,
  );
  const text = element('textarea', { id: 'bench-text', readonly: true, rows: 8, spellcheck: 'false' });
  const label = element('label', { for: 'bench-text' }, ACTIONS.text);
  const status = element('p', { role: 'status', class: 'said' });
  const copied = element('div', { class: 'copied', hidden: true }, label, text, status);
  let current: readonly [Bench, Bench] | null = null;
  const offer = (make: (bench: Bench, swept: Bench) => string) => () => {
    if (current === null) return;
    text.value = make(...current);
    copied.hidden = false;
    void copy(text).then((done) => setText(status, done ? ACTIONS.copied : ACTIONS.select));
  };
  const buttons = [
    button(ACTIONS.fragment, offer(fragmentOf)),
    button(
      ACTIONS.message,
      offer((bench, swept) => messageOf(bench, swept, title)),
    ),
    button(ACTIONS.reset, reset),
  ];
  const hint = element('p', { class: 'hint' }, ACTIONS.hint);
  return {
    note,
    element: element('div', { class: 'bench-actions' }, element('p', { class: 'buttons' }, ...buttons), hint, copied),
    show: (bench, swept) => {
      current = [bench, swept];
      const differences = differencesOf(bench, swept);
      const lines = differences.map(NOTE.one);
      note.hidden = lines.length === 0;
      if (setItems(list, lines)) copied.hidden = true;
      for (const one of buttons) one.disabled = lines.length === 0;
    },
  };
}

function button(text: string, pressed: () => void): HTMLButtonElement {
  const made = element('button', { type: 'button' }, text);
  made.addEventListener('click', pressed);
  return made;
}

/** False where the browser keeps the clipboard to itself: the text is selected then, to be copied by hand. */
async function copy(text: HTMLTextAreaElement): Promise<boolean> {
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
