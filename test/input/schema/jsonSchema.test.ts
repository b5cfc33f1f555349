import { readFileSync, writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { scenarioJsonSchema } from '../../../src/input/schema/jsonSchema.ts';

const FILE = new URL('../../../src/input/scenario.schema.json', import.meta.url);

test('the schema file is the one made from the schema (refresh: UPDATE_SCHEMA=1 npx vitest run --config test/vitest.config.ts test/input/schema, then npm run format)', () => {
  const schema = scenarioJsonSchema();
  if (process.env.UPDATE_SCHEMA === '1') writeFileSync(FILE, schema);
  // The formatter breaks its lines in its own way.
  expect(JSON.parse(readFileSync(FILE, 'utf8'))).toEqual(JSON.parse(schema));
});

test('every field has a description', () => {
  const bare: string[] = [];
  const visit = (node: unknown, path: string): void => {
    if (typeof node !== 'object' || node === null) return;
    const { properties } = node as { properties?: Record<string, { description?: string }> };
    for (const [name, field] of Object.entries(properties ?? {})) {
      // The three ends of a range are described by the definition they belong to.
      if (!path.includes('$defs') && !field.description) bare.push(`${path}.${name}`);
    }
    for (const [key, child] of Object.entries(node)) visit(child, `${path}.${key}`);
  };
  visit(JSON.parse(scenarioJsonSchema()), '');
  expect(bare).toEqual([]);
});
