/** A number in both worlds, with the marks by which the page puts one of them aside. */
import { type Dimension, imperialUnit, innerUnit } from '../domain/units.ts';
import { inImperial, inInner, PAGE, unitSymbol } from '../report/numbers.ts';
import { element } from './element.ts';

export function amount(value: number, dimension: Dimension): Node[] {
  const unit = unitSymbol(innerUnit(dimension), PAGE);
  if (!Number.isFinite(value)) return [document.createTextNode(PAGE.none)];
  const metric = `${inInner(value, dimension, PAGE)}\u00a0${unit}`.trim();
  const imperial = imperialUnit(dimension);
  if (imperial === null) return [document.createTextNode(metric)];
  const both = (text: string) => element('span', { class: 'both' }, text);
  const other = `${inImperial(value, dimension, PAGE)}\u00a0${unitSymbol(imperial, PAGE)}`;
  return [element('span', { class: 'm' }, metric, ' '), element('small', { class: 'i' }, both('('), other, both(')'))];
}
