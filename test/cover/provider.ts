/**
 * Coverage of the whole test run in one report. Vitest measures what its own processes run; added is what ran
 * elsewhere: the program started by tests of the command line, its worker threads, and the page's scripts in Chromium.
 */

import { relative, sep } from 'node:path';
import v8 from '@vitest/coverage-v8';
import type { CoverageProviderModule, ReportContext } from 'vitest/node';
import { makeCopy, UNMEASURED } from './copy.ts';
import type { FileCoverage } from './fold.ts';
import { type FileCounts, figuresOf, tableOf } from './parts.ts';

/** Istanbul's own map of a run, as far as it is used here. */
interface CoverageMap {
  readonly files: () => string[];
  readonly fileCoverageFor: (path: string) => { readonly data: FileCoverage; readonly toSummary: () => FileSummary };
}

interface FileSummary {
  readonly data: FileCounts;
}

const isMeasured = process.env[UNMEASURED] === undefined;

const measuring: CoverageProviderModule = {
  getProvider,
  startCoverage: (options) => (isMeasured ? v8.startCoverage?.(options) : null),
  takeCoverage: (options) => (isMeasured ? v8.takeCoverage?.(options) : null),
  stopCoverage: (options) => (isMeasured ? v8.stopCoverage?.(options) : null),
};

export default measuring;

/** Loaded when the run begins: the test processes load this file, too, and measure without them. */
async function getProvider() {
  const [{ V8CoverageProvider }, { ranElsewhere, writeScripts }, { fold }] = await Promise.all([
    import('@vitest/coverage-v8/dist/provider.js'),
    import('./elsewhere.ts'),
    import('./fold.ts'),
  ]);

  const copy = await makeCopy();
  writeScripts(copy.scripts);

  class WholeRun extends V8CoverageProvider {
    override async generateCoverage(context: ReportContext): Promise<CoverageMap> {
      const map: CoverageMap = await super.generateCoverage(context);
      const known = new Set(map.files());
      for (const [path, file] of await ranElsewhere(copy))
        if (known.has(path)) fold(map.fileCoverageFor(path).data, file);
      return map;
    }

    override async generateReports(map: CoverageMap, allTestsRun?: boolean): Promise<void> {
      const { root } = this.ctx.config;
      const counts = map.files().map((path) => {
        const { data } = map.fileCoverageFor(path).toSummary();
        return [relative(root, path).split(sep).join('/'), data] as const;
      });
      this.ctx.logger.log(`\n${tableOf(figuresOf(new Map(counts)))}\n`);
      await super.generateReports(map, allTestsRun);
    }
  }
  return new WholeRun();
}
