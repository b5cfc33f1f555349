import { expect, test } from 'vitest';
import { auditHtml } from '../../src/report/audit/html.ts';
import { exampleAudit } from '../report/audit/fixture.ts';
import { accessibilityViolations, openPage } from './harness.ts';

test.each([
  ['nothing wrong', await auditHtml(await exampleAudit('hill-hatch'))],
  ['a cause', await auditHtml(await exampleAudit('loaded-estate'))],
])(
  'the audit with %s is accessible, asks for nothing and does not scroll sideways, light and dark',
  async (_, html) => {
    for (const [width, colorScheme] of [
      [1280, 'light'],
      [390, 'dark'],
    ] as const) {
      const { page, errors, requests, messages } = await openPage(html, {
        viewport: { width, height: 844 },
        colorScheme,
        javaScript: true,
      });
      expect({ errors, requests, messages }).toEqual({ errors: [], requests: [], messages: [] });
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(width);
      expect(await accessibilityViolations(page)).toEqual([]);
    }
  },
);
