import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { expect, test } from 'vitest';
import { schemaLine } from '../../../src/cli/run/new.ts';

const ROOT = fileURLToPath(new URL('../../../', import.meta.url));
const SCHEMA = join(ROOT, 'dist', 'scenario.schema.json');

test('a scenario outside of the package names the schema by its address, one inside by the way to it', () => {
  const line = '# yaml-language-server: $schema=';
  expect(schemaLine(join(tmpdir(), 'my car'))).toBe(line + pathToFileURL(SCHEMA).href);
  expect(schemaLine(join(ROOT, 'scenarios', 'mine'))).toBe(`${line}../../dist/scenario.schema.json`);
});
