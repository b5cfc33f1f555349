/** What the page answers so far: each axle on the bench, and the best pairs of a small car. */
import { html, nothing, type TemplateResult } from 'lit-html';
import { AXLE_NAMES, type AxleName } from '../../model/scenario.ts';
import { AXLE_TITLES } from '../../report/text/labels.ts';
import { count, PAGE } from '../../report/text/numbers.ts';
import { drawingView } from '../parts/views.ts';
import { sentenceView } from './fields.ts';
import { type AxleAnswer, isOpen, type JudgedDraft, MOST_IN_PAGE, type Said } from './judge.ts';
import { springMap } from './springMap.ts';
import type { SweptDraft, SweptSetup } from './sweep.ts';

export interface Answers {
  readonly judged: JudgedDraft | null;
  readonly axles: readonly AxleAnswer[];
  readonly swept: SweptDraft | null;
  /** How many pieces of longer work are under way. */
  readonly waitingFor: number;
}

/** One line on what is answered, for the eye and for who listens. */
export function headline({ judged, axles, swept }: Answers): string {
  if (judged === null) return 'Reading …';
  const open = judged.said.filter(isOpen).length;
  const problems = judged.said.filter(({ kind }) => kind === 'problem').length - open;
  const found = axles.map(({ verdict }) => verdict);
  const best = swept?.setups.flatMap(({ name, pairs }) =>
    pairs[0] ? [`${name}: ${pairs[0].id}, score ${pairs[0].score}`] : [`${name}: nothing works`],
  );
  const wrong = problems === 0 ? [] : [`${problems} to mend`];
  const lacking = open === 0 ? [] : [`${open} still to measure`];
  return [...found, ...(best ?? []), ...wrong, ...lacking].join(' · ') || 'Nothing to answer yet.';
}

export function answersView(answers: Answers): TemplateResult {
  const { judged, axles, swept, waitingFor } = answers;
  const tooMany = AXLE_NAMES.filter((axle) => (judged?.combinations[axle] ?? 0) > MOST_IN_PAGE);
  return html`${swept === null ? nothing : swept.setups.map((setup) => setupView(setup))}
${tooMany.length === 0 ? nothing : sweepYourself(tooMany, judged)}
${axles.map(axleView)}
${waitingFor > 0 ? html`<p class="quiet">Working out the rest …</p>` : nothing}
${axles.length === 0 && swept === null ? html`<p class="quiet">An axle is answered as soon as its damper, ledge and sleeve, perch, mount, stop and a spring have their lengths.</p>` : nothing}`;
}

/** What is about no field that is shown: a file that can't be read, the rows of a catalogue, a field of no name. */
export function elsewhereView(said: readonly Said[]): TemplateResult | typeof nothing {
  if (said.length === 0) return nothing;
  return html`<ul class="said" id="said-elsewhere">${said.map(
    (one) => html`<li class="place code">${one.file}:${one.line}:${one.column}</li>${sentenceView(one)}`,
  )}</ul>`;
}

function axleView({ axle, verdict, fails, choice, count: counted, lines, svg }: AxleAnswer): TemplateResult {
  return html`<section class="axle-answer" aria-label=${`Answer, ${axle}`} data-axle=${axle}>
<p class=${fails ? 'lead alert' : 'lead'}><strong>${verdict}</strong></p>
<p class="prose"><b>${choice}</b>; ${counted}</p>
<dl class="facts">${lines.map(({ about, text }) => html`<div><dt>${about}</dt><dd>${text}</dd></div>`)}</dl>
<figure>${drawingView(svg)}<figcaption>To scale, the perch in the middle of its safe range. Diameters that nobody measured are drawn as such parts usually are.</figcaption></figure>
</section>`;
}

function sweepYourself(axles: readonly AxleName[], judged: JudgedDraft | null): TemplateResult {
  const sizes = axles.map((axle) => `${axle} ${count(judged?.combinations[axle] ?? 0, PAGE)} combinations`).join(', ');
  return html`<p class="prose"><b>More than this page takes on</b> (${sizes}). Save the files, and run the sweep:
<span class="code">springsift sweep scenario.yaml</span></p>`;
}

function setupView(setup: SweptSetup): TemplateResult {
  const { name, pairs, works } = setup;
  return html`<section class="setup-answer" aria-label=${`Best pairs, ${name}`} data-setup=${name}>
<h3>${name}: ${pairs.length === 0 ? 'nothing works' : `the best ${pairs.length}`}</h3>
<p class="prose">Front ${count(works.front, PAGE)} combinations pass every check, rear ${count(works.rear, PAGE)}.${pairs.length === 0 ? ' Save the files and run the sweep: its report says what would help.' : ''}</p>
${pairs.length === 0 ? nothing : pairsList(setup)}
${AXLE_NAMES.map(
  (
    axle,
  ) => html`<figure class="spring-map">${drawingView(springMap(setup.springs[axle], `Springs ${axle}, ${name}: rate over free length`))}
<figcaption>${AXLE_TITLES[axle]} springs, ${name}: filled where a combination with it works, a cross where none does.</figcaption></figure>`,
)}
</section>`;
}

function pairsList({ pairs, name }: SweptSetup): TemplateResult {
  return html`<ol class="pairs" aria-label=${`Best pairs, ${name}`}>${pairs.map(
    ({ id, score, axles }) =>
      html`<li><b class="code">${id}</b>, score ${score}${AXLE_NAMES.map((axle) => {
        const { choice, perch, bumpTravel, droopTravel, frequency } = axles[axle];
        return html`<small class="corner-line">${AXLE_TITLES[axle]}: ${choice}; perch ${perch}, bump travel ${bumpTravel}, droop travel ${droopTravel}, ${frequency}</small>`;
      })}</li>`,
  )}</ol>`;
}
