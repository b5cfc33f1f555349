// Prints `N passed, N failed` from vitest's JSON report. Arguments: report file, exit code of the test run.
// A test file that could not be loaded counts as one failure, and so does a run that failed outside its tests
// (formatting, types, build, a crash before the report was written).
import { readFileSync } from 'node:fs';

const [reportFile, exitCode] = process.argv.slice(2);

const files = (() => {
  try {
    return JSON.parse(readFileSync(reportFile, 'utf8')).testResults;
  } catch {
    return [];
  }
})();
const count = (status) =>
  files.flatMap((file) => file.assertionResults).filter((test) => test.status === status).length;

const unloadable = files.filter(
  (file) => file.status === 'failed' && !file.assertionResults.some((test) => test.status === 'failed'),
).length;
const failedTests = count('failed') + unloadable;
const passed = count('passed');
const failed = failedTests === 0 && (exitCode !== '0' || passed === 0) ? 1 : failedTests;

process.stdout.write(`${passed} passed, ${failed} failed\n`);
process.exitCode = failed === 0 ? 0 : 1;
