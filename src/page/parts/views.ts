/** What the pages are made of: one of several chosen, lines, buttons, and a drawing in its place. */
import { html, nothing, type TemplateResult } from 'lit-html';

/** What stands in the control that an event came from. */
export const typedIn = ({ target }: Event): string => (target as HTMLInputElement).value;

/**
 * For `.value`: what stands in a control may have changed by itself, typed by its reader or moved by its limits. A list is
 * never the one before, and so is set each time; where the text is the same, nothing moves.
 */
export const anew = (value: string | number): readonly (string | number)[] => [value];

export function radiosView<T extends string>(
  name: string,
  legend: string,
  labels: Readonly<Record<T, string>>,
  chosen: T,
  choose: (value: T) => void,
): TemplateResult {
  return html`<fieldset class="choices"><legend>${legend}</legend>${(Object.entries(labels) as [T, string][]).map(
    ([value, label]) =>
      html`<label><input type="radio" name=${name} value=${value} .checked=${value === chosen} @change=${() => choose(value)}> ${label}</label>`,
  )}</fieldset>`;
}

export interface Selected {
  readonly value: string;
  readonly choose: (value: string) => void;
  readonly disabled?: boolean;
  readonly describedBy?: string;
}

export function selectView(
  id: string,
  options: readonly (readonly [value: string | number, text: string])[],
  { value, choose, disabled = false, describedBy }: Selected,
): TemplateResult {
  return html`<select id=${id} aria-describedby=${describedBy ?? nothing} ?disabled=${disabled} .value=${anew(value)} @change=${(event: Event) => choose(typedIn(event))}>${options.map(
    ([own, text]) => html`<option value=${own} ?selected=${String(own) === value}>${text}</option>`,
  )}</select>`;
}

export const linesView = (lines: readonly string[]): TemplateResult[] => lines.map((line) => html`<li>${line}</li>`);

export function buttonView(text: string, press: () => void, disabled = false): TemplateResult {
  return html`<button type="button" ?disabled=${disabled} @click=${press}>${text}</button> `;
}

/** A drawing is text that this program made: it replaces what stood there. */
export const drawingView = (svg: string): TemplateResult => html`<div class="slot" .innerHTML=${svg}></div>`;
