import { expect, test } from 'vitest';
import type { AuditResult } from '../../../src/audit/fit/types.ts';
import { auditHtml, auditSummary } from '../../../src/audit/page/view.ts';
import { exampleAudit } from './fixture.ts';

const good = await exampleAudit('hill-hatch');
const bad = await exampleAudit('loaded-estate');
const text = (html: string) =>
  html
    .replace(/<style[\s\S]*?<\/style>/g, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/&nbsp;/g, ' ')
    .replace(/\s+/g, ' ');

test('the page runs nothing, asks for nothing, and carries the cautions', async () => {
  const html = await auditHtml(good);
  expect(html).not.toContain('<script');
  expect(html).toContain('default-src &#x27;none&#x27;');
  expect(html).not.toMatch(/script-src (?!&#x27;none)/);
  expect(html).not.toMatch(/\sstyle="/);
  expect(text(html)).toContain('A compressed spring stores enough energy to maim or kill.');
  expect(await auditHtml(good)).toBe(html);
});

test('every unit says what was measured, the bench test, the corrected perch and the safe places', async () => {
  const page = text(await auditHtml(good));
  expect(page).toContain('Front left');
  expect(page).toContain('Front right');
  expect(page).toContain('Bench test');
  expect(page).toContain('perch at its lowest');
  expect(page).toContain('within the worst case');
  expect(page).toContain('turns of the collar');
  expect(page).toContain('The wheel was not weighed, so the ride height is taken to come from its load');
});

test('a cause is said at the top of its unit, with what settles it', async () => {
  const page = text(await auditHtml(bad));
  expect(page).toContain('One of these: another bump stop was fitted (progressive stop 70 45.0 mm)');
  expect(page).toContain('Measure as well: bump stop, once cut.');
  expect(page).toContain('nothing is wrong');
});

test('hostile names reach neither page nor terminal', async () => {
  const nasty: AuditResult = { ...good, scenario: '<script>alert(1)</script>\u202e\u001b[2J', setup: '</style>' };
  const html = await auditHtml(nasty);
  expect(html).not.toContain('<script>');
  expect(html).not.toContain('\u202e');
  expect(auditSummary(nasty)).not.toContain('\u001b');
});

test('the terminal says what disagrees, what to do, and where the perch belongs', () => {
  const summary = auditSummary(bad);
  expect(summary).toContain('BEYOND');
  expect(summary).toContain('CAUSE');
  expect(summary).toMatch(/perch {5,}\d/);
  expect(auditSummary(good)).toContain('agrees');
  for (const line of summary.split('\n')) expect(line.length).toBeLessThanOrEqual(101);
});
