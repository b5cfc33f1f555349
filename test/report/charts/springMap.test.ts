import { expect, test } from 'vitest';
import { CHECK } from '../../../src/model/corner/checks.ts';
import { drawChart } from '../../../src/report/charts/draw.ts';
import { springMap } from '../../../src/report/charts/springMap.ts';

const CELLS = [
  { spring: 'a', free_length_mm: 200, rate_n_per_mm: 40, workable: 2, best_score: 0.62, rejected: { coil_bind: 3 } },
  { spring: 'b', free_length_mm: 200, rate_n_per_mm: 50, workable: 0, best_score: null, rejected: { fit: 5 } },
  { spring: 'c', free_length_mm: 220, rate_n_per_mm: 40, workable: 1, best_score: 0.8, rejected: {} },
];
const CHOSEN = { freeLength: 220, rate: 40 };

test('the map says scores and letters in figures, not in colour alone', async () => {
  const { body } = await drawChart(springMap({ cells: CELLS, chosen: CHOSEN }));
  for (const text of ['.62', '.80', CHECK.fit.letter]) expect(body).toContain(`>${text}</text>`);
});
