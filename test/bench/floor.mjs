/**
 * The floor under the demo's time: the same libraries imported and the same charts drawn from a finished result, but
 * nothing read, swept, ranked or written.
 */
import { readFileSync } from 'node:fs';

const result = JSON.parse(readFileSync(process.argv[2], 'utf8'));
await Promise.all(
  ['commander', 'csv-parse', 'csv-stringify', 'handlebars', 'vega', 'vega-lite', 'yaml', 'zod'].map(
    (name) => import(name),
  ),
);
const { reportHtml } = await import('../../dist/report/html.js');
await reportHtml(result);
