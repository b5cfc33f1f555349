/** What goes to either stream while a test runs, so that the test prints nothing; `vi.restoreAllMocks` ends it. */
import { vi } from 'vitest';

export function printed(): { out: () => string; err: () => string } {
  const texts = { stdout: '', stderr: '' };
  for (const name of ['stdout', 'stderr'] as const) {
    vi.spyOn(process[name], 'write').mockImplementation((text) => {
      texts[name] += String(text);
      return true;
    });
  }
  return { out: () => texts.stdout, err: () => texts.stderr };
}
