/** The scenario format as JSON Schema, for editors that complete, explain and check while typing. */

import * as z from 'zod';
import { UNKNOWN } from '../values/quantity.ts';
import { quantityIn, REQUIRED, whenLeftOut } from './fieldReference.ts';
import { bare, describe } from './issues.ts';
import { quantityDefinitions } from './leaves.ts';
import { PARTS } from './parts.ts';
import { axle, benchAxle, benchScenario, car, scenario } from './scenario.ts';
import { setup, target } from './setup.ts';
import { catalogueEntry, estimate, SPRING_PARTS } from './springs.ts';
import { WISHED } from './wishes.ts';
import { fieldsLeftOut } from './withoutUnknown.ts';

const TITLE = 'springsift scenario';
const BENCH_TITLE = 'springsift scenario of the bench';

/** What the schema defines once, by the name that refers to it; quantities have names of their own. */
const DEFINITIONS = {
  axle,
  damper: PARTS.damper,
  mount: PARTS.mount,
  isolator: PARTS.isolator,
  bump_stop: PARTS.bumpStop,
  rod_end: PARTS.rodEnd,
  sleeve: PARTS.sleeve,
  perch: PARTS.perch,
  helper: SPRING_PARTS.helper,
  spring: SPRING_PARTS.spring,
  catalogue: catalogueEntry,
  estimate,
  setup,
  target,
};
for (const [id, schema] of Object.entries(DEFINITIONS)) {
  z.globalRegistry.add(schema, { ...z.globalRegistry.get(schema), id });
}

/** The text of `scenario.schema.json`: what people may write, before it is read into numbers. */
export function scenarioJsonSchema(): string {
  return jsonSchemaOf(TITLE, scenario);
}

/** The same of parts on the bench. */
export function benchJsonSchema(): string {
  return jsonSchemaOf(BENCH_TITLE, benchScenario);
}

function jsonSchemaOf(title: string, of: z.ZodType): string {
  const { $defs, ...schema } = z.toJSONSchema(of, { io: 'input', target: 'draft-2020-12', override: explain });
  // What a set of wishes may give need not be written.
  for (const one of [$defs?.setup, $defs?.target]) {
    if (one?.required) one.required = one.required.filter((field) => !WISHED.has(field));
  }
  return `${JSON.stringify({ title, ...schema, $defs: { ...quantityDefinitions(), ...$defs } }, null, 2)}\n`;
}

/** A quantity says how it is written, a field that may be left out what then holds. */
function explain({ zodSchema, jsonSchema }: { zodSchema: z.core.$ZodType; jsonSchema: z.core.JSONSchema.BaseSchema }) {
  const [written, leftOut] = [quantityIn(bare(zodSchema)), whenLeftOut(zodSchema)];
  const more = [
    written === null ? [] : `Written: ${written}`,
    leftOut === REQUIRED ? [] : `Left out: ${leftOut}`,
  ].flat();
  if (more.length > 0) jsonSchema.description = [describe(zodSchema), ...more].join('. ');
  if (LEFT_OUT.has(zodSchema)) allowUnknown(jsonSchema);
}

/** What nobody knows and a scenario can do without. */
const LEFT_OUT = new Set([axle, benchAxle, car].flatMap((schema) => [...fieldsLeftOut(schema)]));

function allowUnknown(jsonSchema: z.core.JSONSchema.BaseSchema): void {
  const { description, ...written } = jsonSchema;
  for (const key of Object.keys(written)) delete jsonSchema[key];
  jsonSchema.anyOf = [written, { const: UNKNOWN }];
}
