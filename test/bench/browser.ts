/** What the benches of pages share: a browser of their own, and times as spreads. */
import { type Browser, chromium } from 'playwright-core';
import { chooseBrowser } from '../setup/chromium.ts';

export async function launch(): Promise<Browser> {
  const { executable, environment } = await chooseBrowser();
  return chromium.launch({
    executablePath: executable,
    args: ['--no-sandbox', '--disable-gpu'],
    env: { ...(process.env as Record<string, string>), ...environment },
  });
}

/** Median and 95th percentile of times in milliseconds. */
export function spread(name: string, times: readonly number[]) {
  const rising = [...times].sort((a, b) => a - b);
  const at = (share: number) => Number((rising[Math.floor(share * (rising.length - 1))] ?? Number.NaN).toFixed(2));
  return { [`${name}_median_ms`]: at(0.5), [`${name}_p95_ms`]: at(0.95) };
}
