/**
 * Opens pages the way a reader does, from a file on disk, and writes down whatever they ask for, say or trip over.
 * One browser per test file, started with its first page and closed after its last test.
 */
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type axe from 'axe-core';
import { type Browser, type BrowserContextOptions, chromium, type Locator, type Page } from 'playwright-core';
import { afterAll, inject } from 'vitest';
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

const FLAGS = [
  // Containers run tests as root, where Chromium refuses to start inside its own sandbox. Only our own pages are opened.
  '--no-sandbox',
  '--disable-gpu',
  '--no-first-run',
  '--no-default-browser-check',
  '--no-pings',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-domain-reliability',
  '--disable-sync',
  '--font-render-hinting=none',
  // No name is ever looked up: an address in a page fails at once, on a machine with or without a network.
  '--host-resolver-rules=MAP * ~NOTFOUND',
];

let browser: Promise<Browser> | undefined;
const folders: string[] = [];
/** Pages whose scripts are counted while coverage is measured. */
const counted = new Set<Page>();
const copy = measuredCopy();
if (copy !== null) process.env.SPRINGSIFT_READABLE_SCRIPTS = 'yes';

afterAll(async () => {
  for (const page of counted) await keepCounts(page);
  await (await browser)?.close();
  await Promise.all(folders.splice(0).map((folder) => rm(folder, { recursive: true, force: true })));
});

/**
 * @param fileOrHtml path of an HTML file, or the text of one (it starts with `<`)
 */
export async function openPage(fileOrHtml: string, options: PageOptions = {}): Promise<OpenedPage> {
  const address = pathToFileURL(fileOrHtml.trimStart().startsWith('<') ? await toFile(fileOrHtml) : fileOrHtml).href;
  browser ??= startBrowser();
  const context = await (await browser).newContext(contextOptions(options));
  await context.route(/^https?:/, (route) => route.abort());
  const page = await context.newPage();
  if (copy !== null && options.javaScript !== false) await count(page);
  const opened = { page, ...record(page, address) };
  await page.goto(address, { waitUntil: 'load' });
  return opened;
}

/** All violations axe-core finds, of every impact, in the page or a part of it. Injected past the page's Content-Security-Policy. */
export async function accessibilityViolations(page: Page, within = ':root'): Promise<readonly axe.Result[]> {
  // Counting would slow axe down by a third.
  await keepCounts(page);
  const source = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
  await page.evaluate(`${source}; undefined`);
  return page.evaluate(async (selector) => {
    const { axe: injected } = globalThis as unknown as { axe: typeof axe };
    return (await injected.run(selector === ':root' ? document : selector, { resultTypes: ['violations'] })).violations;
  }, within);
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

async function startBrowser(): Promise<Browser> {
  const choice = inject('browser');
  if (choice === undefined) {
    throw new Error('Browser tests need their global setup: npm run test:only -- test/browser');
  }
  if ('problem' in choice) throw new Error(choice.problem);
  return chromium.launch({
    executablePath: choice.executable,
    args: FLAGS,
    env: { ...definedEnvironment(), ...choice.environment },
  });
}

function definedEnvironment(): Record<string, string> {
  return Object.fromEntries(
    Object.entries(process.env).filter((entry): entry is [string, string] => entry[1] !== undefined),
  );
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
