/** What differs from the sweep, always in sight, and how to take it away: as scenario lines or as a message. */
import type { Bench } from './bench.ts';
import { differencesOf } from './differences.ts';
import { element, setText } from './element.ts';
import { fragmentOf } from './fragment.ts';
import { messageOf } from './message.ts';
import { KEEP, NOTE } from './words.ts';

export interface Keep {
  /** The note, and the buttons with what they copied. */
  readonly note: HTMLElement;
  readonly element: HTMLElement;
  readonly show: (bench: Bench, swept: Bench) => void;
}

export function keep(title: string, reset: () => void): Keep {
  const list = element('ul');
  const note = element(
    'div',
    { class: 'bench-note', hidden: true },
    element('p', {}, element('strong', {}, KEEP.differs)),
    list,
  );
  const text = element('textarea', { id: 'bench-text', readonly: true, rows: 8, spellcheck: 'false' });
  const label = element('label', { for: 'bench-text' }, KEEP.text);
  const said = element('p', { role: 'status', class: 'said' });
  const copied = element('div', { class: 'copied', hidden: true }, label, text, said);
  let current: readonly [Bench, Bench] | null = null;
  const offer = (make: (bench: Bench, swept: Bench) => string) => () => {
    if (current === null) return;
    text.value = make(...current);
    copied.hidden = false;
    void copy(text).then((done) => setText(said, done ? KEEP.copied : KEEP.select));
  };
  const buttons = [
    button(KEEP.fragment, offer(fragmentOf)),
    button(
      KEEP.message,
      offer((bench, swept) => messageOf(bench, swept, title)),
    ),
    button(KEEP.reset, reset),
  ];
  const hint = element('p', { class: 'hint' }, KEEP.hint);
  return {
    note,
    element: element('div', { class: 'bench-keep' }, element('p', { class: 'buttons' }, ...buttons), hint, copied),
    show: (bench, swept) => {
      current = [bench, swept];
      const differences = differencesOf(bench, swept);
      const lines = differences.map(NOTE.one);
      note.hidden = lines.length === 0;
      if ([...list.children].map((item) => item.textContent).join('\n') !== lines.join('\n')) {
        list.replaceChildren(...lines.map((line) => element('li', {}, line)));
        copied.hidden = true;
      }
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
