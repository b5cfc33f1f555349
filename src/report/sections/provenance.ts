/** Where the page comes from: tool, inputs with their digests, and how much was looked at. */
import type { Result } from '../../domain/result.ts';
import { AXLE_NAMES, FAMILIES } from '../../domain/scenario.ts';
import { FAMILY_LABELS } from '../labels.ts';
import { count, PAGE } from '../numbers.ts';

export interface ProvenanceView {
  readonly tool: string;
  readonly version: string;
  readonly schema: string;
  readonly schemaVersion: string;
  readonly fingerprint: string;
  readonly inputs: readonly { readonly path: string; readonly sha256: string; readonly bytes: string }[];
  readonly options: readonly { readonly family: string; readonly counts: readonly string[] }[];
  readonly combinations: readonly string[];
}

export function provenanceView({ tool, schema, version, scenario, inputs }: Result): ProvenanceView {
  const axles = AXLE_NAMES.map((axle) => scenario.axles[axle]);
  return {
    tool: tool.name,
    version: tool.version,
    schema,
    schemaVersion: String(version),
    fingerprint: scenario.fingerprint,
    inputs: inputs.map(({ path, sha256, bytes }) => ({ path, sha256, bytes: count(bytes, PAGE) })),
    options: FAMILIES.map((family) => ({
      family: FAMILY_LABELS[family],
      counts: axles.map((axle) => count(axle.options[family], PAGE)),
    })),
    combinations: axles.map((axle) => count(axle.combinations, PAGE)),
  };
}
