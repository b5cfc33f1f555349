/** What one record says of a section stands nowhere else, and nothing of it is forgotten. */

import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, test } from 'vitest';
import { pageOf, type Section, type ShownSection } from '../../src/report/frame/section.ts';
import { reportHtml } from '../../src/report/html.ts';
import { SECTIONS, showSections } from '../../src/report/sections.ts';
import type { Result } from '../../src/result/result.ts';
import { failingResult } from '../advice/nothingScenarios.ts';
import { sweptScenario } from '../setup/scenarios.ts';
import { ROOT, readFiles } from '../setup/source-tree.ts';

const FOLDER = join(ROOT, 'src', 'report', 'sections');
const filesOf = (ending: string) =>
  readdirSync(FOLDER).flatMap((name) => (name.endsWith(ending) ? [name.slice(0, -ending.length)] : []));
const sources = readFiles(['src/report'], '.ts');
const templates = readFiles(['src/report'], '.hbs');
const styles = readFiles(['src/report'], '.css');

const isSection = (value: unknown): value is Section =>
  typeof value === 'object' && value !== null && 'show' in value && 'template' in value;
const duplicates = (names: readonly string[]) => names.filter((name, k) => names.indexOf(name) !== k);

const swept = await sweptScenario('hill-hatch');
const { plans: _, ...rest } = swept;
const built: Result = {
  ...rest,
  mode: 'build',
  setups: swept.setups.map((setup) => ({ ...setup, shortlist: setup.shortlist.slice(0, 1) })),
};
const failing = await failingResult();
const PAGES = await Promise.all(
  [swept, built, failing].map(async (result) => ({
    html: await reportHtml(result),
    shown: await showSections(pageOf(result)),
  })),
);
const shownOnce = PAGES.flatMap(({ shown }) => shown);

test('each section has an address of its own and a template, and no template or style is without its section', () => {
  const names = SECTIONS.map(({ template }) => template);
  expect(duplicates(SECTIONS.map(({ id }) => id))).toEqual([]);
  expect(filesOf('.hbs').sort()).toEqual([...names].sort());
  expect(filesOf('.css').filter((name) => !names.includes(name))).toEqual([]);
});

test('every section of the folder, and of the list’s own file, stands in the list', async () => {
  const files = [`${FOLDER}.ts`, ...filesOf('.ts').map((name) => join(FOLDER, `${name}.ts`))];
  const modules = await Promise.all(files.map((file) => import(pathToFileURL(file).href)));
  const found = modules.flatMap((module: object) => Object.values(module).filter(isSection));
  expect(found.map(({ id }) => id).sort()).toEqual(SECTIONS.map(({ id }) => id).sort());
});

test('the demo, swept, as one build, and where nothing works, shows every section', () => {
  expect(SECTIONS.filter(({ id }) => !shownOnce.some((one) => one.id === id))).toEqual([]);
});

test('navigation and headings follow the list, each with words', () => {
  for (const { html, shown } of PAGES) {
    const order = SECTIONS.filter(({ id }) => shown.some((one) => one.id === id));
    const [nav = ''] = /<nav[\s\S]*?<\/nav>/.exec(html) ?? [];
    const links = [...nav.matchAll(/<a href="#([^"]*)">([^<]+)</g)].map(([, id, text]) => [id, text]);
    expect(links).toEqual(shown.map(({ id, link }) => [id, link]));
    const heads = [...html.matchAll(/<h2 id="([^"]*)-title">([^<]+)</g)].map(([, id, text]) => [id, text]);
    expect(heads).toEqual(shown.map(({ id, title }) => [id, title]));
    expect(shown.map(({ id }) => id)).toEqual(order.map(({ id }) => id));
  }
});

test('what stands on screen only is marked, and named on the last page in print', () => {
  for (const { html, shown } of PAGES) {
    const marked = [...html.matchAll(/<section id="([^"]*)" class="on-screen"/g)].map(([, id]) => id);
    expect(marked).toEqual(shown.flatMap(({ id, prints }) => (prints ? [] : [id])));
    const named = /Only on screen[^<]*<\/b> ([^<]*)\./.exec(html)?.[1];
    expect(named).toBe(shown.flatMap(({ leaves }) => leaves ?? []).join(', '));
    expect(shown.filter(({ prints, leaves }) => !prints && !leaves)).toEqual([]);
  }
});

test('the words of a section are its own', () => {
  const last = [...new Map(shownOnce.map((one): [string, ShownSection] => [one.id, one])).values()];
  expect(duplicates(last.map(({ link }) => link))).toEqual([]);
  expect(duplicates(last.map(({ title }) => title))).toEqual([]);
});

/** `path: text` of what the pattern finds. */
const found = (files: typeof sources, pattern: RegExp) =>
  files.flatMap(({ path, text }) => [...text.matchAll(pattern)].map(([whole]) => `${path}: ${whole}`));
const literally = (text: string) => text.replace(/[\\^$.*+?()[\]{}|]/g, '\\$&');

test('no template opens a section of the report or writes its heading', () => {
  const own = templates.filter(({ path }) => path.startsWith('src/report/sections/') || path.endsWith('/page.hbs'));
  expect(found(own, /<section\b[^>]*>|<h2\b[^>]*>/g)).toEqual([
    expect.stringMatching(/^src\/report\/frame\/templates\/page\.hbs: <section id="\{\{id\}\}"/),
    'src/report/frame/templates/page.hbs: <h2 id="{{id}}-title">',
  ]);
  const ids = SECTIONS.map(({ id }) => id).join('|');
  expect(found(own, new RegExp(`\\b(?:id|for|aria-\\w+)="(?:${ids})(?:-title)?"`, 'g'))).toEqual([]);
});

test('id, link and title of a section are written in its record alone', () => {
  const own = [...sources, ...templates].filter(
    ({ path }) => !/\/(?:audit|changes|comparison|fitting|measure)\.hbs$/.test(path),
  );
  const homes = new Map(
    SECTIONS.map(({ id }) => [id, found(own, new RegExp(`\\bid: '${id}'`, 'g')).map((copy) => copy.split(':')[0])]),
  );
  expect([...homes.values()].filter((files) => files.length !== 1)).toEqual([]);
  for (const { id, link, title } of shownOnce) {
    const words = [link, title].map(literally).join('|');
    // The text of a link that leads there may be the title.
    const copies = found(own, new RegExp(`'(?:${words})'|(?<!href="#${id}")>(?:${words})<`, 'g'));
    const [home] = homes.get(id) ?? [];
    expect(copies.map((copy) => copy.split(':')[0])).toEqual([home, home]);
  }
});

test('no two templates or pieces of templates have one name, and each is used', () => {
  const files = templates.map(({ path }) => path.replace(/^.*\/|\.hbs$/g, ''));
  const pieces = templates.flatMap(({ text }) =>
    [...text.matchAll(/\{\{#\*inline "(\w+)"\}\}/g)].map(([, name]) => name),
  );
  expect(duplicates([...files, ...pieces.map((name) => name ?? '')])).toEqual([]);
  const used = new Set(templates.flatMap(({ text }) => [...text.matchAll(/\{\{> (\w+)/g)].map(([, name]) => name)));
  expect(pieces.filter((name) => !used.has(name))).toEqual([]);
});

test('every class and id of the styles stands in a template or in what draws', () => {
  const drawn = [...sources, ...readFiles(['src/page', 'src/measure', 'src/compare', 'src/audit/page'], '.ts')];
  const attributes = templates.flatMap(({ text }) => [
    ...text.replace(/\{\{[^}]*\}\}/g, ' ').matchAll(/\b(?:class|id)="([^"]*)"/g),
  ]);
  const strings = drawn.flatMap(({ text }) => [...text.matchAll(/'([^'\n]*)'|`([^`]*)`|"([^"\n]*)"/g)]);
  const used = new Set([...attributes, ...strings].flatMap(([whole]) => whole.match(/[\w-]+/g) ?? []));
  const named = styles.flatMap(({ path, text }) => {
    const selectors = text.replace(/\/\*[\s\S]*?\*\/|"[^"]*"/g, '').match(/[^{};]+(?=\{)/g) ?? [];
    const names = selectors.flatMap((selector) =>
      [...selector.matchAll(/[.#]([a-zA-Z][\w-]*)/g)].map(([, name]) => name),
    );
    return [...new Set(names)].map((name) => ({ path, name: name ?? '' }));
  });
  expect(named.length).toBeGreaterThan(100);
  expect(named.filter(({ name }) => !used.has(name))).toEqual([]);
});
