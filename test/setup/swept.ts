import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  export interface ProvidedContext {
    /** Folder of what one test works out for all tests of a run. */
    swept: string;
  }
}

const CACHE = fileURLToPath(new URL('../../node_modules/.cache/springsift', import.meta.url));
/** Another one in each run, the same for all its groups: what an earlier run left may be older than the sources. */
const FOLDER = join(CACHE, `swept-${performance.timeOrigin}`);

export default function setup(project: TestProject): () => void {
  mkdirSync(FOLDER, { recursive: true });
  project.provide('swept', FOLDER);
  return () => rmSync(FOLDER, { recursive: true, force: true });
}
