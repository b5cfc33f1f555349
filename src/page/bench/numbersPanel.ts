/** Numbers beside the drawing: the verdict, figures with what was swept, clearances as a table. */
import { html, nothing, type TemplateResult } from 'lit-html';
import { COIL_BIND, CONTACT, giveFor } from '../../model/corner/contacts.ts';
import { clearanceClosed, thinnestContact } from '../../model/corner/state.ts';
import { type Dimension, imperialUnit, innerUnit } from '../../model/units.ts';
import { fixed, inImperial, inInner, PAGE, unitSymbol } from '../../report/text/numbers.ts';
import { linesView } from '../parts/views.ts';
import type { Judged } from './bench.ts';
import type { BenchQuantity, Verdict } from './findings.ts';
import { placeAt, type Share } from './travel.ts';
import { QUANTITY, TABLE } from './words.ts';

export function verdictView({ works, summary, lines, aside }: Verdict): TemplateResult {
  return html`<div class=${works ? 'verdict' : 'verdict bad'}><p><strong>${summary}</strong></p>${lines.length > 0 ? html`<ul>${linesView(lines)}</ul>` : nothing}${aside === '' ? nothing : html`<p class="alert">${aside}</p>`}</div>`;
}

export function quantitiesView(now: readonly BenchQuantity[], swept: readonly BenchQuantity[]): TemplateResult {
  return html`<dl class="figures">${now.map((quantity) => {
    const { id, label, value, dimension, aside } = quantity;
    const before = swept.find((one) => one.id === id);
    const isMoved = before && amountsOf(before.value, dimension).join() !== amountsOf(value, dimension).join();
    return html`<div><dt>${label}</dt><dd data-figure=${id} data-value=${value}>${amountView(quantity)}</dd><dd class="aside">${aside}</dd><dd class="aside was">${isMoved ? html`${QUANTITY.swept} ${amountView(before)}` : nothing}</dd></div>`;
  })}</dl>`;
}

/** In the inner unit, and in the other world's, if it has one of its own. */
function amountsOf(value: number, dimension: Dimension): readonly [string, string?] {
  if (!Number.isFinite(value)) return [PAGE.none];
  const metric = `${inInner(value, dimension, PAGE)}\u00a0${unitSymbol(innerUnit(dimension), PAGE)}`.trim();
  const imperial = imperialUnit(dimension);
  return imperial ? [metric, `${inImperial(value, dimension, PAGE)}\u00a0${unitSymbol(imperial, PAGE)}`] : [metric];
}

/** With the marks by which the page puts one of the two aside. */
function amountView({ value, dimension }: BenchQuantity): TemplateResult | string {
  const [metric, imperial] = amountsOf(value, dimension);
  return imperial === undefined ? metric : html`<span class="m">${metric} </span>${partnerView(value, dimension)}`;
}

/** `(13.07 in)`, its brackets only where both worlds are shown. */
export function partnerView(value: number, dimension: Dimension): TemplateResult | typeof nothing {
  const [, imperial] = amountsOf(value, dimension);
  return imperial === undefined
    ? nothing
    : html`<small class="i"><span class="both">(</span>${imperial}<span class="both">)</span></small>`;
}

export function clearancesView({ state }: Judged, share: Share): TemplateResult {
  const { corner, contacts, site } = state;
  const thinnest = thinnestContact(state);
  const whole = corner.mount.bushGive;
  const place = placeAt(state, share);
  const rows = contacts.map((contact) => {
    const { name, length, clearance, margin } = contact;
    const give = whole > 0 ? (giveFor(corner, name) / whole) * place.give : 0;
    const values = [place.length - length - give, clearance, margin, clearance - margin];
    const fails = clearance < margin;
    const isGuess = name === COIL_BIND && corner.spring.solid.source === 'estimated';
    const remarks = [
      fails ? TABLE.fails : contact === thinnest ? TABLE.thinnest : '',
      isGuess ? TABLE.estimate : '',
      site.bump.kind === 'closed' ? '' : TABLE.closed(clearanceClosed(state, clearance)),
    ].filter((text) => text !== '');
    return html`<tr class=${fails ? 'alert' : nothing}><th scope="row">${CONTACT[name].label} <small>${remarks.join('; ')}</small></th>${values.map(
      (value, k) =>
        html`<td class="n" data-contact=${`${name} ${TABLE.columns[k]}`} data-value=${value}>${fixed(value, 1, PAGE)}</td>`,
    )}</tr>`;
  });
  return html`<div class="scroll" role="region" aria-label=${TABLE.caption} tabindex="0"><table class="grid gaps"><caption class="vh">${TABLE.caption}</caption><thead><tr>${TABLE.headers.map((text, k) => html`<th scope="col" class=${k === 0 ? nothing : 'n'}>${text}</th>`)}</tr></thead><tbody>${rows}</tbody></table></div>`;
}
