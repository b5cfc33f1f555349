/** The fields of a form, drawn from the table of fields and from what stands in the file. */
import { html, nothing, type TemplateResult } from 'lit-html';
import type { FormField, Group, List, Value, Words } from '../../input/form/fields.ts';
import { assumedBeside, assumedInWords } from '../../input/schema/assumedValues.ts';
import { isMapping, valueAt } from '../../input/schema/issues.ts';
import { WISHED } from '../../input/schema/wishes.ts';
import type { PathKey } from '../../input/source/yaml.ts';
import { UNKNOWN } from '../../input/values/quantity.ts';
import { anew, buttonView, selectView, typedIn } from '../parts/views.ts';
import { isOpen, type Said } from './judge.ts';
import { isCatalogue, optionLabel, optionOf, plainest } from './skeleton.ts';
import { isUnknown, meantBy, settled, shownText, unitOf, type World } from './values.ts';

export type Path = readonly PathKey[];

/** How a field is measured, by the measuring sheet. */
export interface HowMeasured {
  readonly letter: string;
  readonly how: string;
}

/** What the fields are drawn from, and what they do. */
export interface FormContext {
  readonly data: unknown;
  readonly world: World;
  /** Of a path without the places in its lists: `dampers[].extended`. */
  readonly measuredAs: (pattern: string) => HowMeasured | null;
  /** What is said of a field. */
  readonly saidOf: (path: Path) => readonly Said[];
  /** The same, to be shown there: what is asked for nowhere is shown above all fields. */
  readonly takeSaid: (path: Path) => readonly Said[];
  /** False where what stands there is an alias of something else in the file. */
  readonly isOwn: (path: Path) => boolean;
  readonly write: (path: Path, text: string) => void;
  readonly put: (path: Path, field: FormField, name: string) => void;
  readonly putValues: (path: Path, values: readonly string[] | Readonly<Record<string, string>>) => void;
  readonly add: (path: Path, field: FormField, name: string) => void;
  readonly remove: (path: Path) => void;
  /** Text of a catalogue, null where it is not known yet. */
  readonly catalogue: (name: string) => string | null;
  readonly writeCatalogue: (name: string, text: string) => void;
}

export const idOf = (path: Path, part = ''): string => `f-${path.join('-')}${part === '' ? '' : `--${part}`}`;

/** `dampers[].extended` of an axle, `car.wheelbase` of the car. */
export function patternOf(path: Path): string {
  const own = path[0] === 'axles' ? path.slice(2) : path;
  return own.reduce<string>((text, key) => {
    if (typeof key === 'number') return `${text}[]`;
    return text === '' ? key : `${text}.${key}`;
  }, '');
}

export const labelOf = (key: string): string => key.replaceAll('_', ' ');

/** Lists in the singular: what one entry is called. */
function singular(key: string): string {
  const text = labelOf(key);
  return text.replace(/(?<=sh|ch)es$/, '').replace(/(?<!s)s$/, '');
}

export function fieldView(form: FormContext, field: FormField, path: Path): TemplateResult {
  switch (field.kind) {
    case 'group':
      return groupView(form, field, path);
    case 'list':
      return listView(form, field, path);
    case 'either':
      return eitherView(form, field.options, field, path);
    case 'swept':
    case 'span':
      return severalView(form, field, path);
    case 'value':
      return rowView(form, field, path, inputView(form, field, path));
    default:
      return rowView(form, field, path, wordsView(form, field, path));
  }
}

// Mappings.

/** What is needed or stands there is shown; the rest waits behind one word. */
export function groupFields(form: FormContext, group: Group, path: Path): TemplateResult {
  const data = valueAt(form.data, path);
  const isHeld = (field: FormField) => isMapping(data) && Object.hasOwn(data, field.key);
  const isWished = wishedAt(form, path);
  const isAsked = (field: FormField) => {
    const isMeasured = form.measuredAs(patternOf([...path, field.key])) !== null && field.kind !== 'group';
    return isHeld(field) || (field.isNeeded && !isWished(field)) || (isMeasured && field.unknown !== undefined);
  };
  const shown = group.fields.filter(isAsked);
  const further = group.fields.filter((field) => !isAsked(field));
  const views = (fields: readonly FormField[]) => fields.map((field) => fieldView(form, field, [...path, field.key]));
  return html`${views(shown)}${
    further.length === 0
      ? nothing
      : html`<details class="further"><summary>more about it: ${further.map(({ key }) => labelOf(key)).join(', ')}</summary>${views(further)}</details>`
  }`;
}

/** What a named set of wishes gives need not be said. */
function wishedAt({ data }: FormContext, path: Path): (field: FormField) => boolean {
  const hasSet = path[0] === 'setups' && valueAt(data, [...path.slice(0, 2), 'wishes']) !== undefined;
  return ({ key }) => hasSet && WISHED.has(key);
}

function groupView(form: FormContext, group: Group, path: Path): TemplateResult {
  const isHeld = valueAt(form.data, path) !== undefined;
  if (!isHeld && !group.isNeeded) return absentView(form, group, path);
  return html`<fieldset class="group-of" id=${idOf(path)}>
<legend>${labelOf(group.key)}</legend>
${meaningView(group.text)}${saidView(form, path)}${groupFields(form, group, path)}
${group.isNeeded ? nothing : removeButton(form, path, `leave out ${labelOf(group.key)}`)}
</fieldset>`;
}

function absentView(form: FormContext, field: FormField, path: Path): TemplateResult {
  return html`<div class="absent">${buttonView(`add ${labelOf(field.key)}`, () => form.put(path, field, singular(field.key)))}
<small>${plainText(field.text)}${field.whenLeftOut === '' ? '' : `; without: ${plainText(field.whenLeftOut)}`}</small></div>`;
}

// Lists.

function listView(form: FormContext, list: List, path: Path): TemplateResult {
  const data = valueAt(form.data, path);
  if (data === undefined && !list.isNeeded) return absentView(form, list, path);
  const entries: readonly unknown[] = Array.isArray(data) ? data : [];
  const name = singular(list.key);
  return html`<div class="list" role="group" aria-label=${labelOf(list.key)} id=${idOf(path)}>
${saidView(form, path)}
${entries.map((_, k) => entryView(form, list, [...path, k], `${name}${entries.length > 1 ? ` ${k + 1}` : ''}`))}
<p class="adds">${optionsOf(list.entry).map((option) => addButton(form, list, option, path, entries.length))}</p>
</div>`;
}

const optionsOf = (field: FormField): readonly FormField[] => (field.kind === 'either' ? field.options : [field]);

function addButton(form: FormContext, list: List, option: FormField, path: Path, count: number): TemplateResult {
  const name = singular(list.key);
  const isFile = isCatalogue(option);
  const noun = isFile ? 'catalogue' : name;
  const article = /^[aeiou]/.test(noun) ? 'an' : 'a';
  const what =
    option.kind === 'choice' ? `“${option.words[0]}” as a choice` : `${count === 0 ? article : 'another'} ${noun}`;
  const begun = isFile ? 'springs.csv' : `${name} ${count + 1}`;
  return buttonView(`add ${what}`, () => form.add(path, option, begun));
}

function entryView(form: FormContext, { entry }: List, path: Path, title: string): TemplateResult {
  const value = valueAt(form.data, path);
  const option = entry.kind === 'either' ? optionOf(entry.options, value) : entry;
  const isGroup = option?.kind === 'group';
  return html`<fieldset class="entry-of" id=${idOf(path)}>
<legend>${title}</legend>
${saidView(form, path)}
${isGroup ? groupFields(form, option, path) : html`<p class="word">${shownText(value)}</p>`}
${isGroup ? catalogueView(form, path) : nothing}
${removeButton(form, path, `remove ${title}`)}
</fieldset>`;
}

function removeButton(form: FormContext, path: Path, text: string): TemplateResult | typeof nothing {
  if (!form.isOwn(path)) return nothing;
  return html`<button type="button" class="quiet-button" @click=${() => form.remove(path)}>${text}</button>`;
}

/** The rows of a catalogue, to be pasted from a spreadsheet. */
function catalogueView(form: FormContext, path: Path): TemplateResult | typeof nothing {
  const name = valueAt(form.data, [...path, 'catalogue']);
  if (typeof name !== 'string' || name === '') return nothing;
  const id = idOf(path, 'rows');
  return html`<div class="field wide"><label for=${id}>rows of ${name}</label>
<textarea id=${id} rows="6" spellcheck="false" aria-describedby=${`${id}-how`} .value=${anew(form.catalogue(name) ?? '')} @input=${(event: Event) => form.writeCatalogue(name, typedIn(event))}></textarea>
<p class="how" id=${`${id}-how`}>Paste them from a spreadsheet, or open the file above: a header in any order, then a row a spring; tabs, semicolons or commas between cells. Units in the header (<span class="code">rate_n_per_mm</span>) or in the cells (<span class="code">250 lb/in</span>).</p></div>`;
}

// One of several forms.

function eitherView(form: FormContext, options: readonly FormField[], field: FormField, path: Path): TemplateResult {
  const value = valueAt(form.data, path);
  const chosen = chosenOf(field, options, value);
  const id = idOf(path, 'form');
  const choose = (index: string) => {
    if (index === UNKNOWN) form.write(path, UNKNOWN);
    else if (index === '') form.remove(path);
    else form.put(path, options[Number(index)] as FormField, singular(field.key));
  };
  const index =
    chosen === null
      ? isUnknown(value) && field.unknown !== undefined
        ? UNKNOWN
        : ''
      : String(options.indexOf(chosen));
  const choices = [
    ...(field.isNeeded ? [] : [['', `left out: ${plainText(field.whenLeftOut)}`] as const]),
    ...options.map((option, k) => [k, optionLabel(option)] as const),
    ...(field.unknown === undefined ? [] : [[UNKNOWN, unknownText(form, field, path)] as const]),
  ];
  const isWord = chosen?.kind === 'choice' && chosen.words.length === 1;
  return html`<div class="either">
<div class="field"><label for=${id}>${letterView(form, path)}${labelOf(field.key)}</label>
${selectView(id, choices, { value: index, choose, disabled: !form.isOwn(path) })}
${howView(form, field, path)}${isWord || chosen === null ? saidView(form, path) : nothing}</div>
${chosen === null || isWord ? nothing : html`<div class="chosen">${chosen.kind === 'group' ? html`${saidView(form, path)}${groupFields(form, chosen, path)}` : plainView(form, { ...chosen, key: field.key, unknown: undefined }, path)}</div>`}
</div>`;
}

/** One value under the choice that says so. */
function plainView(form: FormContext, field: FormField, path: Path): TemplateResult {
  if (!('dimension' in field)) return fieldView(form, field, path);
  return html`<div class="field"><span class="typed">${inputView(form, field, path, labelOf(field.key))}${unitHint(form, field)}</span>${saidView(form, path)}${commaView(form, field, path)}</div>`;
}

function chosenOf(field: FormField, options: readonly FormField[], value: unknown): FormField | null {
  if (value === undefined) return field.isNeeded ? plainest(options) : null;
  return isUnknown(value) && field.unknown !== undefined ? null : optionOf(options, value);
}

// One value, several, or a range of them.

const RANGE = ['from', 'to', 'step'] as const;

function severalView(form: FormContext, field: Value, path: Path): TemplateResult {
  const value = valueAt(form.data, path);
  if (Array.isArray(value)) return rowView(form, field, path, listOfValues(form, field, path, value));
  if (isMapping(value)) return rowView(form, field, path, rangeView(form, field, path));
  if (field.kind === 'span') {
    const put = () => form.putValues(path, [UNKNOWN, UNKNOWN]);
    return rowView(
      form,
      field,
      path,
      html`<button type="button" id=${idOf(path)} @click=${put}>add ${labelOf(field.key)}</button>`,
    );
  }
  return rowView(form, field, path, html`${inputView(form, field, path)}${severalButtons(form, path, value)}`);
}

function severalButtons(form: FormContext, path: Path, value: unknown): TemplateResult | typeof nothing {
  const first = shownText(value);
  if (first === '' || isUnknown(value) || !form.isOwn(path)) return nothing;
  const name = labelOf(String(path.at(-1)));
  return html`<button type="button" class="quiet-button" aria-label=${`several values of ${name}`} @click=${() => form.putValues(path, [first, UNKNOWN])}>several</button>
<button type="button" class="quiet-button" aria-label=${`a range of ${name}`} @click=${() => form.putValues(path, { from: first, to: UNKNOWN, step: UNKNOWN })}>range</button>`;
}

function listOfValues(form: FormContext, field: Value, path: Path, values: readonly unknown[]): TemplateResult {
  const isSpan = field.kind === 'span';
  const shorter = (k: number) => {
    const left = values.filter((_, i) => i !== k).map(shownText);
    if (left.length === 1) form.write(path, left[0] as string);
    else form.putValues(path, left);
  };
  const name = labelOf(field.key);
  return html`<span class="values" id=${idOf(path)} role="group" aria-label=${name}>
${values.map((_, k) => html`${inputView(form, field, [...path, k], isSpan ? `${name}, ${k === 0 ? 'from' : 'to'}` : `${name}, value ${k + 1}`)}${isSpan ? nothing : html`<button type="button" class="quiet-button" aria-label=${`remove value ${k + 1} of ${name}`} @click=${() => shorter(k)}>×</button>`}${saidView(form, [...path, k])}`)}
${isSpan ? nothing : html`<button type="button" class="quiet-button" @click=${() => form.putValues(path, [...values.map(shownText), UNKNOWN])}>add a value</button>`}
</span>`;
}

function rangeView(form: FormContext, field: Value, path: Path): TemplateResult {
  const name = labelOf(field.key);
  return html`<span class="values" id=${idOf(path)} role="group" aria-label=${name}>
${RANGE.map((key) => html`<span class="part">${key} ${inputView(form, field, [...path, key], `${name}, ${key}`)}</span>${saidView(form, [...path, key])}`)}
<button type="button" class="quiet-button" @click=${() => form.write(path, shownText(valueAt(form.data, [...path, 'from'])) || UNKNOWN)}>one value</button>
</span>`;
}

// A row: label, what is typed, how it is measured, what is said of it.

function rowView(form: FormContext, field: Value | Words, path: Path, input: TemplateResult): TemplateResult {
  const value = valueAt(form.data, path);
  const isSingle = typeof value !== 'object' && !(field.kind === 'span');
  const name = html`${letterView(form, path)}${labelOf(field.key)}${unitHint(form, field)}`;
  return html`<div class="field" data-again=${isAgain(path) ? 'yes' : nothing} data-needed=${field.isNeeded && !wishedAt(form, path.slice(0, -1))(field) ? 'yes' : nothing}>
${isSingle ? html`<label for=${idOf(path)}>${name}</label>` : html`<span class="label">${name}</span>`}
<span class="typed">${input}${unknownButton(form, field, path)}</span>
${howView(form, field, path)}${saidView(form, path)}${commaView(form, field, path)}
</div>`;
}

/** How the same was measured of the entry before stands there; here it shows while the field is filled in. */
const isAgain = (path: Path) => path.some((key) => typeof key === 'number' && key > 0);

function letterView(form: FormContext, path: Path): TemplateResult | typeof nothing {
  const letter = form.measuredAs(patternOf(path))?.letter ?? '';
  return letter === '' ? nothing : html`<b class="at">${letter}</b> `;
}

function unitHint(form: FormContext, field: Value | Words): TemplateResult | typeof nothing {
  const unit = 'dimension' in field ? unitOf(field.dimension, form.world) : '';
  return unit === '' ? nothing : html` <small>${unit}</small>`;
}

function inputView(form: FormContext, field: Value, path: Path, label = ''): TemplateResult {
  const value = valueAt(form.data, path);
  // What nobody has measured yet is an empty box, but where that is an answer.
  const text = isUnknown(value) && field.unknown === undefined ? '' : shownText(value);
  const settle = (event: Event) => {
    const now = typedIn(event);
    const done = settled(now, field.dimension, form.world);
    if (done !== now) form.write(path, done);
  };
  const isWrong = form.saidOf(path).some((said) => said.kind === 'problem' && !isOpen(said));
  return html`<input type="text" id=${idOf(path)} autocomplete="off" spellcheck="false" aria-label=${label === '' ? nothing : label}
aria-describedby=${`${idOf(path, 'how')} ${idOf(path, 'said')}`} aria-invalid=${isWrong ? 'true' : nothing} data-pattern=${patternOf(path)}
?disabled=${!form.isOwn(path)} .value=${anew(text)} @input=${(event: Event) => form.write(path, typedIn(event))} @change=${settle}>`;
}

function unknownText({ data }: FormContext, { unknown }: FormField, path: Path): string {
  if (unknown === null || unknown === undefined) return 'unknown: judged without';
  const above = path.slice(0, -1);
  const siblings = valueAt(data, above);
  const taken = assumedBeside(unknown, isMapping(siblings) ? siblings : {}, above.join('.'));
  return `unknown: ${assumedInWords(taken)}`;
}

function unknownButton(form: FormContext, field: Value | Words, path: Path): TemplateResult | typeof nothing {
  if (field.unknown === undefined || !('dimension' in field) || !form.isOwn(path)) return nothing;
  const isPressed = isUnknown(valueAt(form.data, path));
  const name = labelOf(field.key);
  return html`<button type="button" class="quiet-button" aria-pressed=${isPressed ? 'true' : 'false'} aria-label=${`${name}: ${unknownText(form, field, path)}`} @click=${() => form.write(path, isPressed ? '' : UNKNOWN)}>${unknownText(form, field, path)}</button>`;
}

function wordsView(form: FormContext, field: Words, path: Path): TemplateResult {
  const text = shownText(valueAt(form.data, path));
  const [id, disabled] = [idOf(path), !form.isOwn(path)];
  const describedBy = `${idOf(path, 'how')} ${idOf(path, 'said')}`;
  if (field.words.length === 0) {
    const write = (event: Event) => form.write(path, typedIn(event));
    return html`<input type="text" id=${id} aria-describedby=${describedBy} ?disabled=${disabled} .value=${anew(text)} @input=${write}>`;
  }
  const choose = (value: string) => (value === '' ? form.remove(path) : form.write(path, value));
  const choices = [
    ...(field.isNeeded && text !== '' ? [] : [['', field.isNeeded ? 'choose' : 'left out'] as const]),
    ...field.words.map((word) => [word, word.replaceAll('_', ' ')] as const),
  ];
  return selectView(id, choices, { value: text, choose, disabled, describedBy });
}

/** How it is measured, or what it means; where it may be left out, what is then taken. */
function howView(form: FormContext, field: FormField, path: Path): TemplateResult {
  const how = plainText(form.measuredAs(patternOf(path))?.how || field.text);
  const isLeftOut = field.whenLeftOut !== '' && valueAt(form.data, path) === undefined;
  const leftOut = isLeftOut ? `${how.endsWith('.') ? '' : '.'} Left out: ${plainText(field.whenLeftOut)}.` : '';
  const own = form.isOwn(path)
    ? ''
    : ' It stands elsewhere in the file, under a name that this place repeats: change it there.';
  return html`<p class="how" id=${idOf(path, 'how')}>${how}${leftOut}${own}</p>`;
}

function meaningView(text: string): TemplateResult | typeof nothing {
  return text === '' ? nothing : html`<p class="how">${plainText(text)}</p>`;
}

/** Without the marks of code, and without those around the words of a list. */
const plainText = (text: string) =>
  text.replace(/`?\[(?:"(\w+)")?\]`?/g, (_, word = 'none') => word).replaceAll('`', '');

/** What is said of a field, in the words of `check`; that nothing was measured yet only while it is filled in. */
export function saidView(form: FormContext, path: Path): TemplateResult {
  return html`<ul class="said" id=${idOf(path, 'said')}>${form.takeSaid(path).map(sentenceView)}</ul>`;
}

export function sentenceView(said: Said): TemplateResult {
  const { kind, found, expected, advice } = said;
  const [start, wanted] = kind === 'problem' ? ['found', 'expected'] : ['warning: found', 'usual'];
  return html`<li class=${isOpen(said) ? 'open' : kind}><b>${start} ${found}</b>; ${wanted}: ${expected}. ${advice}</li>`;
}

/** A comma may be decimal or stand between thousands: its writer says which. */
function commaView(form: FormContext, field: Value | Words, path: Path): TemplateResult | typeof nothing {
  if (!('dimension' in field)) return nothing;
  const meant = meantBy(shownText(valueAt(form.data, path)));
  if (meant.length === 0) return nothing;
  return html`<p class="meant">${meant.map((text) => buttonView(`I mean ${text}`, () => form.write(path, text)))}</p>`;
}
