/** Fields that several parts have. */
import { one, optional, swept, withDefault } from './leaves.ts';
import { type Usual, usual } from './usual.ts';

export const price = optional(one('money', 'not_negative', "price of one piece in the scenario's currency"));

/** A dimension of a part that is 0 unless something else was measured. */
export function zeroUnlessGiven(text: string, band: { readonly usual: Usual } = usual(0, 40)) {
  return withDefault(swept('length', 'not_negative', text, band), '0 mm');
}
