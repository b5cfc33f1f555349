/** The figures of the measuring sheet, byte for byte: look at what a change changed. */

import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { FIGURES, figureSvg, LEVER } from '../../src/measure/figures.ts';
import { lettersOf } from '../../src/measure/page.ts';
import type { GroupName } from '../../src/result/measuring.ts';

const REFRESH = 'UPDATE_GOLDEN=1 npx vitest run --config test/vitest.config.ts test/golden';
const drawn = (Object.keys(FIGURES) as GroupName[]).map((name) => [name, figureSvg(FIGURES[name], lettersOf(name))]);

test.each([...drawn, ['lever', figureSvg(LEVER, (path) => path)]])('the figure %s is the stored one', (name, svg) => {
  const file = new URL(`measure-${name}.svg`, import.meta.url);
  if (process.env.UPDATE_GOLDEN === '1') writeFileSync(file, `${svg}\n`);
  const stored = existsSync(file) ? readFileSync(file, 'utf8') : '';
  expect(stored === `${svg}\n`, `${name} differs. Look at it, and if it is right: ${REFRESH}`).toBe(true);
});
