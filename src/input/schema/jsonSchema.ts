/** The scenario format as JSON Schema, for editors that complete and check while typing. */
import { z } from 'zod';
import { scenario } from './scenario.ts';

const TITLE = 'springsift scenario';

/** The text of `scenario.schema.json`: what people may write, before it is read into numbers. */
export function scenarioJsonSchema(): string {
  const schema = z.toJSONSchema(scenario, { io: 'input', target: 'draft-2020-12' });
  return `${JSON.stringify({ title: TITLE, ...schema }, null, 2)}\n`;
}
