import { type BrowserServer, chromium } from 'playwright-core';
import type { TestProject } from 'vitest/node';
import { chooseBrowser } from './chromium.ts';

declare module 'vitest' {
  export interface ProvidedContext {
    /** Where the browser of all browser tests listens, or why there is none. */
    browser: { readonly address: string } | { readonly problem: string };
  }
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

/**
 * Starts the browser before all browser tests and closes it after them; each of them connects to `inject('browser')`.
 * A missing browser fails the browser tests, one by one: an error thrown here would end the whole run, the other tests
 * with it.
 */
export default async function setup(project: TestProject): Promise<(() => Promise<void>) | undefined> {
  try {
    const server = await startBrowser();
    project.provide('browser', { address: server.wsEndpoint() });
    return () => server.close();
  } catch (error) {
    project.provide('browser', { problem: error instanceof Error ? error.message : String(error) });
    return undefined;
  }
}

async function startBrowser(): Promise<BrowserServer> {
  const { executable, environment } = await chooseBrowser();
  const env = { ...process.env, ...environment };
  return chromium.launchServer({ executablePath: executable, args: FLAGS, env, host: '127.0.0.1' });
}
