/** The corner under each load state, the perch left where the design load put it. */
import type { LoadedState } from '../corner/state.ts';
import { type CornerQuantity, quantities, type Working } from './quantity.ts';

const SOLVED = 'balance of forces solved for the height, perch unchanged';

/** Four rows a load state; ids and symbols carry the state's position, labels its name. */
export function loadQuantities(names: readonly string[]): CornerQuantity[] {
  return names.flatMap((name, k) => {
    const at = (w: Working) => w.state.loads[k] as LoadedState;
    const n = k + 1;
    return quantities<Working>('load states', SOLVED, [
      [`load_${n}_height`, `H_${n}`, `${name}: standing height`, 'length', (w) => at(w).height],
      [
        `load_${n}_bump_travel`,
        `z_bump_${n}`,
        `${name}: bump travel left`,
        'length',
        (w) => at(w).bumpTravel,
        `H_${n} - H_stop`,
        { better: 'more' },
      ],
      [
        `load_${n}_droop_travel`,
        `z_droop_${n}`,
        `${name}: droop travel left`,
        'length',
        (w) => at(w).droopTravel,
        `H_droop - H_${n}`,
        { better: 'more' },
      ],
      [
        `load_${n}_frequency`,
        `f_body_${n}`,
        `${name}: body frequency, without the tyre`,
        'frequency',
        (w) => at(w).rates.bodyFrequency,
      ],
    ]);
  });
}
