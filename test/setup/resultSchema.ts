/** The JSON Schema of results as the build made it. */

import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';

export const RESULT_SCHEMA_FILE = fileURLToPath(new URL('../../dist/results.schema.json', import.meta.url));

export const resultSchema = JSON.parse(readFileSync(RESULT_SCHEMA_FILE, 'utf8'));

const ajv = new Ajv2020({ strict: true, allErrors: true, allowUnionTypes: true });
export const validate = ajv.compile(resultSchema);
