import type { TestProject } from 'vitest/node';
import { type BrowserChoice, chooseBrowser } from './chromium.ts';

declare module 'vitest' {
  export interface ProvidedContext {
    browser: BrowserChoice | { readonly problem: string };
  }
}

/**
 * Runs once before all browser tests; each of them reads the choice with `inject('browser')`. A missing browser fails
 * the browser tests, one by one: an error thrown here would end the whole run, the other tests with it.
 */
export default async function setup(project: TestProject): Promise<void> {
  const choice = await chooseBrowser().catch((error: unknown) => ({
    problem: error instanceof Error ? error.message : String(error),
  }));
  project.provide('browser', choice);
}
