/**
 * The measuring sheet as a form: what is typed goes into the text of the scenario, and everything shown is read from it.
 *
 *   a key is pressed -> text of the scenario -> fields at once
 *                                           \-> in a thread: problems, warnings, answers of each axle
 *                                           \-> in others: axles with many combinations, the sweep of a small car
 */
import { html, nothing, render, type TemplateResult } from 'lit-html';
import { add, fieldAt, isOwn, parse, put, remove, write } from '../../input/form/edit.ts';
import { type FormField, formFields, type Group } from '../../input/form/fields.ts';
import { isOfBench } from '../../input/readScenario.ts';
import { valueAt } from '../../input/schema/issues.ts';
import { readYaml } from '../../input/source/yaml.ts';
import { UNKNOWN } from '../../input/values/quantity.ts';
import { AXLE_NAMES, type AxleName } from '../../model/scenario.ts';
import { FORM_ELEMENT } from '../../report/packing/element.ts';
import { AXLE_TITLES } from '../../report/text/labels.ts';
import { debounce } from '../parts/later.ts';
import { buttonView, radiosView } from '../parts/views.ts';
import { type Answers, answersView, elsewhereView, headline } from './answers.ts';
import { createHash } from './digest.ts';
import { type Draft, SCENARIO_NAME } from './draft.ts';
import { type FormContext, fieldView, type HowMeasured, type Path } from './fields.ts';
import { download, Memory, openFiles } from './files.ts';
import type { AxleAnswer, Said } from './judge.ts';
import { fillSheet } from './sheet.ts';
import { skeletonOf } from './skeleton.ts';
import type { World } from './values.ts';
import { Asker, answerAsWorker } from './worker.ts';

/** What the page brings along. */
interface Brought {
  readonly draft: Draft;
  /** Groups of the measuring sheet, in the order of the work. */
  readonly groups: readonly { readonly name: string; readonly title: string }[];
  /** By pattern: `dampers[].extended`. */
  readonly measured: Readonly<Record<string, HowMeasured & { readonly group: string }>>;
}

function open(): void {
  const place = document.getElementById('form');
  const data = document.getElementById(FORM_ELEMENT)?.textContent;
  // A call within a script: later nobody knows which one it is.
  const own = document.currentScript?.textContent ?? null;
  if (!place || !data || own === null) return;
  const brought = JSON.parse(data) as Brought;
  new Form(place, brought, URL.createObjectURL(new Blob([own], { type: 'text/javascript' }))).show();
  document.documentElement.classList.add('with-form');
}

const CANNOT_READ = html`<p class="prose">The scenario can’t be read as it stands, so it can’t be filled in here. Mend it in an editor and open it again.</p>`;

const UNITS_OF = { metric: 'mm, kg, N/mm', imperial: 'in, lb, lbf/in' } as const;

/** Longer work waits until nothing was typed for so long, ms. */
const PAUSE = 250;

class Form {
  readonly #place: HTMLElement;
  readonly #brought: Brought;
  readonly #memory: Memory;
  readonly #quick: Asker<'quick'>;
  readonly #late: Asker<'late'>;
  readonly #sweep: Asker<'sweep'>;
  #draft: Draft;
  #answers: Answers = { judged: null, axles: [], swept: null, waitingFor: 0 };
  #world: World = 'metric';
  readonly #askLater = debounce(PAUSE, () => {
    this.#late.ask(this.#draft);
    this.#sweep.ask(this.#draft);
  });
  #isKept = true;
  #note = '';

  constructor(place: HTMLElement, brought: Brought, address: string) {
    this.#place = place;
    this.#brought = brought;
    // A page sent by somebody else may lie where another lay before: each remembers what was made of its own beginning.
    const beginning = createHash('sha256').update(new TextEncoder().encode(JSON.stringify(brought.draft)));
    this.#memory = new Memory(`springsift ${location.pathname} ${beginning.digest('hex')}`);
    this.#draft = this.#memory.recall() ?? brought.draft;
    this.#quick = new Asker('quick', address, ({ judged, answers }) =>
      this.#tell({ judged, axles: this.#with(answers) }),
    );
    this.#late = new Asker('late', address, (answers) =>
      this.#tell({ axles: this.#with(answers), waitingFor: this.#answers.waitingFor - 1 }),
    );
    this.#sweep = new Asker('sweep', address, (swept) =>
      this.#tell({ swept, waitingFor: this.#answers.waitingFor - 1 }),
    );
  }

  /** The answers so far, with those just given in their places. */
  #with(answers: readonly AxleAnswer[]): readonly AxleAnswer[] {
    return AXLE_NAMES.flatMap((axle) => {
      const all = [...answers, ...this.#answers.axles];
      return all.find((answer) => answer.axle === axle) ?? [];
    });
  }

  show(): void {
    this.#render();
    this.#ask();
  }

  #tell(found: Partial<Answers>): void {
    this.#answers = { ...this.#answers, ...found };
    this.#render();
  }

  /** Every change goes this way. */
  #change(draft: Draft): void {
    if (draft === this.#draft) return;
    this.#draft = draft;
    this.#isKept = this.#memory.keep(draft);
    this.#render();
    this.#ask();
  }

  #ask(): void {
    // What was worked out for another draft is no answer to this one.
    this.#answers = { ...this.#answers, axles: [], swept: null, waitingFor: 2 };
    this.#quick.ask(this.#draft);
    this.#askLater();
  }

  #edit(change: (text: string) => string): void {
    this.#change({ ...this.#draft, scenario: change(this.#draft.scenario) });
  }

  #render(): void {
    render(this.#view(), this.#place);
    fillSheet(dataIn(this.#draft), dataIn(this.#brought.draft));
  }

  #view(): TemplateResult {
    const data = dataIn(this.#draft);
    const shown = new Set<Said>();
    const fields = data === null ? CANNOT_READ : this.#fieldsView(data, shown);
    const elsewhere = this.#answers.judged?.said.filter((said) => !shown.has(said)) ?? [];
    return html`<h2 id="form-title">Fill it in here</h2>
<p class="prose">What you type is kept in this browser and goes nowhere else. Save it as the files that the sweep reads; open them here again whenever you like.</p>
${this.#toolsView()}
<p class="headline" role="status">${headline(this.#answers)}</p>
<div class="asked-and-answered">
<div class="asked">${elsewhereView(elsewhere)}${fields}</div>
<aside class="answered" tabindex="0" aria-label="Answer so far">${answersView(this.#answers)}</aside>
</div>`;
  }

  #toolsView(): TemplateResult {
    const { catalogues } = this.#draft;
    return html`<div class="tools controls">
${radiosView('world', 'A bare number is in', UNITS_OF, this.#world, (world) => this.#setWorld(world))}
<p class="file-tools">
<label class="file">Open a scenario and its catalogue, or a report <input type="file" multiple accept=".yaml,.yml,.csv,.txt,.html" @change=${(event: Event) => this.#open(event)}></label>
${buttonView(`Save ${SCENARIO_NAME}`, () => download(SCENARIO_NAME, this.#draft.scenario, 'text/yaml'))}
${Object.entries(catalogues).map(([name, text]) => buttonView(`Save ${name}`, () => download(name, text, 'text/csv')))}
${buttonView('Save as page', () => this.#saveAsPage())}
${buttonView('Print the sheet', () => print())}
<button type="button" class="quiet-button" @click=${() => this.#forget()}>Forget everything</button>
</p>
${this.#isKept ? nothing : html`<p class="alert">This browser stores nothing for this page: save before you close it.</p>`}
${this.#note === '' ? nothing : html`<p class="alert" role="alert">${this.#note}</p>`}
</div>`;
  }

  #setWorld(world: World): void {
    this.#world = world;
    this.#render();
  }

  async #open(event: Event): Promise<void> {
    const input = event.target as HTMLInputElement;
    const opened = await openFiles([...(input.files ?? [])], this.#draft);
    input.value = '';
    this.#note = 'refused' in opened ? opened.refused : '';
    if ('refused' in opened) this.#render();
    else this.#change(opened.draft);
  }

  #forget(): void {
    if (!confirm('Forget everything that was typed here? Saved files stay.')) return;
    this.#memory.forget();
    this.#draft = this.#brought.draft;
    this.#isKept = true;
    this.#render();
    this.#ask();
  }

  /** The page with what was typed in it, to be sent to somebody. */
  #saveAsPage(): void {
    const copy = document.documentElement.cloneNode(true) as HTMLElement;
    copy.classList.remove('with-form');
    copy.querySelector('#form')?.replaceChildren();
    const data = copy.querySelector(`#${FORM_ELEMENT}`);
    // Within a script element nothing may look like its end.
    if (data) data.textContent = JSON.stringify({ ...this.#brought, draft: this.#draft }).replaceAll('<', '\\u003c');
    download('measure.html', `<!doctype html>\n${copy.outerHTML}`, 'text/html');
  }

  // The fields, in the order of the work.

  #fieldsView(data: unknown, shown: Set<Said>): TemplateResult {
    const level = isOfBench(data) ? 'bench' : 'car';
    const root = formFields(level);
    const form = this.#context(root, data, shown);
    const axles = AXLE_NAMES.filter((axle) => valueAt(data, ['axles', axle]) !== undefined);
    const { groups } = this.#brought;
    return html`${groups.map(({ name, title }) => this.#groupView(form, root, axles, name, title))}
${this.#axlesView(form, root, axles)}
${level === 'bench' ? this.#wishesOffer() : nothing}
${this.#wholeView(form, root, level)}`;
  }

  #context(root: Group, data: unknown, shown: Set<Said>): FormContext {
    const document = parse(this.#draft.scenario);
    const said = this.#answers.judged?.said ?? [];
    const byPath = new Map<string, Said[]>();
    for (const one of said) {
      const key = one.path?.join('.') ?? '';
      byPath.set(key, [...(byPath.get(key) ?? []), one]);
    }
    return {
      data,
      world: this.#world,
      measuredAs: (pattern) => this.#brought.measured[pattern] ?? null,
      saidOf: (path) => byPath.get(path.join('.')) ?? [],
      takeSaid: (path) => {
        const own = byPath.get(path.join('.')) ?? [];
        for (const one of own) shown.add(one);
        return own;
      },
      isOwn: (path) => isOwn(document, path),
      write: (path, text) => this.#edit((before) => writeOrLeaveOut(before, root, path, text)),
      put: (path, field, name) => this.#edit((before) => put(before, root, path, skeletonOf(field, name))),
      putValues: (path, values) => this.#edit((before) => put(before, root, path, values)),
      add: (path, field, name) => this.#edit((before) => add(before, root, path, skeletonOf(field, name))),
      remove: (path) => this.#edit((before) => remove(before, path)),
      catalogue: (name) => this.#draft.catalogues[name] ?? null,
      writeCatalogue: (name, text) =>
        this.#change({ ...this.#draft, catalogues: { ...this.#draft.catalogues, [name]: text } }),
    };
  }

  #groupView(form: FormContext, root: Group, axles: readonly AxleName[], name: string, title: string) {
    return html`<section class="work" aria-labelledby=${`work-${name}`} @focusin=${light} @focusout=${light}>
<h3 id=${`work-${name}`}>${title}</h3>
<div class="work-figure" data-figure=${name}>${figureOf(name)}</div>
${axles.map((axle) => {
  const group = fieldAt(root, ['axles', axle]) as Group;
  const own = group.fields.filter(({ key }) => this.#groupOf(key) === name);
  return html`<fieldset class="axle-of"><legend>${AXLE_TITLES[axle]}</legend>${own.map((field) => fieldView(form, field, ['axles', axle, field.key]))}</fieldset>`;
})}
</section>`;
  }

  /** The group of the sheet that a field of an axle is measured with. */
  #groupOf(key: string): string {
    const { measured, groups } = this.#brought;
    const pattern = Object.keys(measured).find(
      (one) => one === key || one.startsWith(`${key}[]`) || one.startsWith(`${key}.`),
    );
    return (pattern && measured[pattern]?.group) || (groups[0]?.name ?? '');
  }

  #axlesView(form: FormContext, root: Group, axles: readonly AxleName[]): TemplateResult {
    const missing = AXLE_NAMES.filter((axle) => !axles.includes(axle));
    return html`<p class="adds">${missing.map((axle) => {
      const field = fieldAt(root, ['axles', axle]) as FormField;
      return buttonView(`add the ${axle} axle`, () => form.put(['axles', axle], field, axle));
    })}${axles.length < 2 ? nothing : axles.map((axle) => html`<button type="button" class="quiet-button" @click=${() => form.remove(['axles', axle])}>leave out the ${axle} axle</button> `)}</p>`;
  }

  #wishesOffer(): TemplateResult {
    const offer = () => this.#edit((before) => withWishes(before));
    return html`<section class="work" aria-labelledby="work-wishes"><h3 id="work-wishes">Wishes</h3>
<p class="prose">With both axles, their loads and motion, and a height to stand at, springs are ranked and front and rear are matched.</p>
<p class="adds"><button type="button" @click=${offer}>say what the car shall do</button></p></section>`;
  }

  #wholeView(form: FormContext, root: Group, level: 'bench' | 'car'): TemplateResult {
    const fields = root.fields.filter(({ key }) => key !== 'axles');
    const wishes = fields.filter(({ key }) => key === 'setups' || key === 'plan');
    const car = fields.filter(({ key }) => ['name', 'description', 'currency', 'car'].includes(key));
    const rest = fields.filter((field) => !wishes.includes(field) && !car.includes(field));
    const views = (some: readonly FormField[]) => some.map((field) => fieldView(form, field, [field.key]));
    const less = () =>
      this.#edit((before) => ['setups', 'plan', 'ranking'].reduce((text, key) => remove(text, [key]), before));
    return html`<section class="work" aria-labelledby="work-whole"><h3 id="work-whole">The car as a whole</h3>${views(car)}</section>
${level === 'bench' ? nothing : html`<section class="work" aria-labelledby="work-setups"><h3 id="work-setups">Wishes</h3>${views(wishes)}<p class="adds"><button type="button" class="quiet-button" @click=${less}>leave out all wishes</button></p></section>`}
<section class="work" aria-labelledby="work-rest"><h3 id="work-rest">What else counts</h3><p class="prose">All of it has a default, which is shown; open what you want to change.</p>${views(rest)}</section>`;
  }
}

/** The plain data of a draft, read once. */
function dataIn(draft: Draft): unknown {
  if (!READ.has(draft)) READ.set(draft, readYaml(draft.scenario).document?.data ?? null);
  return READ.get(draft);
}

const READ = new WeakMap<Draft, unknown>();

/** An emptied box: what is needed is unknown again, anything else is left out. */
function writeOrLeaveOut(text: string, root: Group, path: Path, typed: string): string {
  if (typed !== '') return write(text, root, path, typed);
  const isInList = typeof path.at(-1) === 'number' || ['from', 'to', 'step'].includes(String(path.at(-1)));
  const field = fieldAt(root, path);
  return isInList || field === null || field.isNeeded ? write(text, root, path, UNKNOWN) : remove(text, path);
}

/** One setup for the street, by the named set of wishes, its heights still to be chosen. */
function withWishes(text: string): string {
  const root = formFields('car');
  const data = readYaml(text).document?.data;
  const isMissing = (path: Path) => valueAt(data, path) === undefined;
  const height = { target_height: UNKNOWN };
  const setups = [{ name: 'street', wishes: 'street', front: height, rear: height }];
  let wished = put(text, root, ['setups'], setups);
  for (const path of [['car'], ...AXLE_NAMES.map((axle) => ['axles', axle])]) {
    const field = fieldAt(root, path);
    if (field !== null && isMissing(path)) wished = put(wished, root, path, skeletonOf(field, String(path.at(-1))));
  }
  return wished;
}

// The figures of the sheet stand beside the fields, and their letters are lit by what is being filled in.

const figures = new Map<string, Node>();

function figureOf(name: string): Node | typeof nothing {
  const standing = document.querySelector(`#${name} .side svg`);
  const copy = figures.get(name) ?? standing?.cloneNode(true);
  if (copy === undefined) return nothing;
  figures.set(name, copy);
  return copy;
}

function light(event: FocusEvent): void {
  const section = event.currentTarget as HTMLElement;
  const field = event.type === 'focusin' ? (event.target as HTMLElement).closest('.field') : null;
  const letter = field?.querySelector('.at')?.textContent ?? '';
  for (const mark of section.querySelectorAll('.letter')) {
    mark.classList.toggle('lit', letter !== '' && mark.textContent === letter);
  }
}

// In a worker there is no page.
if (typeof document === 'undefined') answerAsWorker(globalThis as never);
else open();
