/**
 * Opens pages the way a reader does, from a file on disk, and writes down whatever they ask for, say or trip over.
 * All test files share one browser; what a file opened in it is closed after its last test (`closing.ts`).
 */

import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type axe from 'axe-core';
import { type Browser, type BrowserContextOptions, chromium, type Locator, type Page } from 'playwright-core';
import { expect, inject } from 'vitest';
import { measuredCopy } from '../cover/copy.ts';
import type {} from '../setup/browser.ts';

export interface PageOptions {
  /** Off: as in a mail or file preview. Default on. */
  readonly javaScript?: boolean;
  readonly colorScheme?: 'light' | 'dark';
  /** CSS pixels. Default 1280 x 800. */
  readonly viewport?: { readonly width: number; readonly height: number };
}

export interface OpenedPage {
  readonly page: Page;
  /** Every address asked for, other than the page itself. Nothing leaves the machine: web requests are refused. */
  readonly requests: readonly string[];
  /** `type: text`, e.g. `error: Refused to ...`. */
  readonly messages: readonly string[];
  /** Uncaught errors of the page's own scripts. */
  readonly errors: readonly string[];
}

let browser: Promise<Browser> | undefined;
const folders: string[] = [];
/** Pages whose scripts are counted while coverage is measured. */
const counted = new Set<Page>();
const copy = measuredCopy();
if (copy !== null) process.env.SPRINGSIFT_READABLE_SCRIPTS = copy.scripts;

export async function closePages(): Promise<void> {
  for (const page of counted) await keepCounts(page);
  await (await browser)?.close();
  browser = undefined;
  await Promise.all(folders.splice(0).map((folder) => rm(folder, { recursive: true, force: true })));
}

/**
 * @param fileOrHtml path of an HTML file, or the text of one (it starts with `<`)
 */
export async function openPage(fileOrHtml: string, options: PageOptions = {}): Promise<OpenedPage> {
  const address = pathToFileURL(fileOrHtml.trimStart().startsWith('<') ? await toFile(fileOrHtml) : fileOrHtml).href;
  browser ??= connect();
  const context = await (await browser).newContext(contextOptions(options));
  await context.route(/^https?:/, (route) => route.abort());
  const page = await context.newPage();
  if (copy !== null && options.javaScript !== false) await count(page);
  const opened = { page, ...record(page, address) };
  await page.goto(address, { waitUntil: 'load' });
  return opened;
}

const DESK = { width: 1280, height: 844 };
export const PHONE = { width: 390, height: 844 };

/**
 * The page asks for nothing, says nothing, does not scroll sideways and has no accessibility violation: on a desk in
 * light, on a phone in dark, and on paper, which looks the same whichever it is printed from. Two layouts in two
 * schemes would take twice as long and find the same. Paper is read, not operated: there axe looks at its colours.
 */
export async function expectAccessible(html: string, { onPaper = true } = {}): Promise<void> {
  const { page, requests, messages, errors } = await openPage(html, { viewport: DESK });
  const papers: (readonly string[])[] = [];
  for (const [viewport, colorScheme] of [
    [DESK, 'light'],
    [PHONE, 'dark'],
  ] as const) {
    await page.setViewportSize(viewport);
    await page.emulateMedia({ media: 'screen', colorScheme });
    const widths = await page.evaluate(() => [document.documentElement.scrollWidth, window.innerWidth]);
    expect(widths).toEqual([viewport.width, viewport.width]);
    expect(await accessibilityViolations(page), colorScheme).toEqual([]);
    if (!onPaper) continue;
    await page.setViewportSize(DESK);
    await page.emulateMedia({ media: 'print' });
    papers.push(await looks(page));
    if (colorScheme === 'dark') expect(await accessibilityViolations(page, { rules: COLOURS }), 'print').toEqual([]);
  }
  const [fromLight, fromDark] = papers;
  expect(fromDark).toEqual(fromLight);
  expect({ requests, messages, errors }).toEqual({ requests: [], messages: [], errors: [] });
}

/** How each element looks: what is seen of it, and its colours. */
function looks(page: Page): Promise<readonly string[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll('body, body *')].map((element) => {
      const style = getComputedStyle(element);
      const { color, backgroundColor, fill, stroke, borderTopColor, opacity } = style;
      return [
        element.tagName,
        element.checkVisibility(),
        color,
        backgroundColor,
        fill,
        stroke,
        borderTopColor,
        opacity,
      ].join(' ');
    }),
  );
}

/** The rules that a colour scheme alone can break. */
export const COLOURS = ['color-contrast', 'link-in-text-block'];

/**
 * All violations axe-core finds, of every impact, in the page or a part of it, by all of its rules or some. Injected past
 * the page's Content-Security-Policy. Contrast takes it longest: of texts that look alike in like places, as those of a
 * table's column, it is measured on one.
 */
export async function accessibilityViolations(
  page: Page,
  { within = ':root', rules = [] as readonly string[] } = {},
): Promise<readonly axe.Result[]> {
  // Counting would slow axe down by a third.
  await keepCounts(page);
  if (await page.evaluate(() => !('axe' in globalThis))) {
    axeSource ??= await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
    await page.evaluate(`${axeSource}; undefined`);
  }
  await page.evaluate(markLooks);
  return page.evaluate(
    async ([selector, runOnly]) => {
      const { axe: injected } = globalThis as unknown as { axe: typeof axe };
      injected.configure({ rules: [{ id: 'color-contrast', selector: '[data-look]' }] });
      const place = selector === ':root' ? document : selector;
      const only = runOnly.length === 0 ? {} : { runOnly: [...runOnly] };
      return (await injected.run(place, { resultTypes: ['violations'], ...only })).violations;
    },
    [within, rules] as const,
  );
}

let axeSource: string | undefined;

/** Marks the first text of each look: its kind and colours, and those of all that it lies in. */
function markLooks(): void {
  const known = new Map<string, number>();
  const mark = (element: Element, around: number) => {
    const style = getComputedStyle(element);
    const { color, backgroundColor, backgroundImage, fill, opacity, fontSize, fontWeight, textShadow, position } =
      style;
    const text = [...element.childNodes]
      .map((node) => (node.nodeType === Node.TEXT_NODE ? node.textContent : ''))
      .join('');
    const look = [
      ...[around, element.tagName, element.getAttribute('class'), /\w/.test(text), element.checkVisibility()],
      ...[element.matches(':disabled, [aria-disabled], [aria-hidden]'), color, backgroundColor, backgroundImage, fill],
      ...[opacity, fontSize, fontWeight, textShadow, position],
    ].join(' ');
    element.toggleAttribute('data-look', !known.has(look));
    const place = known.get(look) ?? known.size;
    known.set(look, place);
    for (const child of element.children) mark(child, place);
  };
  mark(document.body, -1);
}

/** What a reader sees of the first of these: style sheets may hide text. */
export function seen(place: Locator): Promise<string> {
  // biome-ignore lint/performance/useDomNodeTextContent: hidden text must not count
  return place.first().innerText();
}

/** Prints as a reader would: the page's own print styles, its own page size ignored in favour of `format`. */
export async function printPage(page: Page, format: 'A4' | 'Letter'): Promise<{ bytes: Buffer; pages: number }> {
  const bytes = await page.pdf({ format, printBackground: true });
  return { bytes, pages: bytes.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0 };
}

async function connect(): Promise<Browser> {
  const started = inject('browser');
  if (started === undefined) {
    throw new Error('Browser tests need their global setup: npm run test:only -- test/browser');
  }
  if ('problem' in started) throw new Error(started.problem);
  return chromium.connect(started.address);
}

function contextOptions(options: PageOptions): BrowserContextOptions {
  return {
    javaScriptEnabled: options.javaScript ?? true,
    colorScheme: options.colorScheme ?? 'light',
    viewport: options.viewport ?? { width: 1280, height: 800 },
    locale: 'en-GB',
    timezoneId: 'UTC',
  };
}

async function count(page: Page): Promise<void> {
  await page.coverage.startJSCoverage({ resetOnNavigation: false });
  counted.add(page);
}

/** What comes after this is not counted. */
async function keepCounts(page: Page): Promise<void> {
  if (copy === null || !counted.delete(page)) return;
  const { keepPage } = await import('../cover/elsewhere.ts');
  keepPage(copy, await page.coverage.stopJSCoverage());
}

function record(page: Page, address: string): Omit<OpenedPage, 'page'> {
  const requests: string[] = [];
  const messages: string[] = [];
  const errors: string[] = [];
  page.on('request', (request) => {
    const isThePage =
      request.isNavigationRequest() && request.frame() === page.mainFrame() && request.url() === address;
    if (!isThePage) requests.push(request.url());
  });
  page.on('console', (message) => messages.push(`${message.type()}: ${message.text()}`));
  page.on('pageerror', (error) => errors.push(error.message));
  return { requests, messages, errors };
}

async function toFile(html: string): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'springsift-page-'));
  folders.push(folder);
  const file = join(folder, 'page.html');
  await writeFile(file, html);
  return file;
}
