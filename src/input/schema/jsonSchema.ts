/** The scenario format as JSON Schema, for editors that complete, explain and check while typing. */

import { z } from 'zod';
import { quantityIn, REQUIRED, whenLeftOut } from './fieldReference.ts';
import { bare, describe } from './issues.ts';
import { quantityDefinitions } from './leaves.ts';
import { bumpStop, damper, isolatorPart, mount, perch, rodEndPart, sleeve } from './parts.ts';
import { axle, scenario } from './scenario.ts';
import { setup, target } from './setup.ts';
import { catalogueEntry, estimate, givenSpring, helper } from './springs.ts';

const TITLE = 'springsift scenario';

/** What the schema defines once, by the name that refers to it; quantities have names of their own. */
const DEFINITIONS = {
  axle,
  damper,
  mount,
  isolator: isolatorPart,
  bump_stop: bumpStop,
  rod_end: rodEndPart,
  sleeve,
  perch,
  helper,
  spring: givenSpring,
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
  const { $defs, ...schema } = z.toJSONSchema(scenario, { io: 'input', target: 'draft-2020-12', override: explain });
  return `${JSON.stringify({ title: TITLE, ...schema, $defs: { ...quantityDefinitions(), ...$defs } }, null, 2)}\n`;
}

/** A quantity says how it is written, a field that may be left out what then holds. */
function explain({ zodSchema, jsonSchema }: { zodSchema: z.core.$ZodType; jsonSchema: z.core.JSONSchema.BaseSchema }) {
  const [written, leftOut] = [quantityIn(bare(zodSchema)), whenLeftOut(zodSchema)];
  const more = [
    written === null ? [] : `Written: ${written}`,
    leftOut === REQUIRED ? [] : `Left out: ${leftOut}`,
  ].flat();
  if (more.length > 0) jsonSchema.description = [describe(zodSchema), ...more].join('. ');
}
