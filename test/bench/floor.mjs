/**
 * The floor under the demo's time, the least that a run must do: start, load the libraries, draw the page of a finished
 * result. Nothing is read, swept, ranked or written.
 * Argument: a file with the result as the program holds it.
 */
import { readFileSync } from 'node:fs';

const { default: reportHtml } = await import('../../dist/pipeline/drawingWorker.js');
await reportHtml(JSON.parse(readFileSync(process.argv[2], 'utf8')));
