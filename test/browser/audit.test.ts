import { test } from 'vitest';
import { auditHtml } from '../../src/audit/page/view.ts';
import { exampleAudit } from '../audit/page/fixture.ts';
import { expectAccessible } from './harness.ts';

test.each([
  ['nothing wrong', await auditHtml(await exampleAudit('hill-hatch'))],
  ['a cause', await auditHtml(await exampleAudit('loaded-estate'))],
])('the audit with %s is accessible, asks for nothing and does not scroll sideways', (_, html) =>
  expectAccessible(html, { onPaper: false }),
);
