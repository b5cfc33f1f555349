import { test } from 'vitest';
import { reportHtml } from '../../src/report/html.ts';
import { planned } from '../report/planFixture.ts';
import { expectAccessible } from './harness.ts';

test.each([
  ['a plan', await reportHtml(planned())],
  ['no plan', await reportHtml(planned({ plans: [] }))],
])('the page with %s is accessible and does not scroll sideways', (_, html) =>
  expectAccessible(html, { onPaper: false }),
);
