/** Where the page comes from: tool, inputs with their digests, and how many combinations were judged. */
import { AXLE_NAMES, FAMILIES } from '../../model/scenario.ts';
import type { Result } from '../../result/result.ts';
import { type ShownSection, section } from '../frame/section.ts';
import { FAMILY_LABELS } from '../text/labels.ts';
import { count, PAGE } from '../text/numbers.ts';

export const provenance = section({
  id: 'provenance',
  link: 'Provenance',
  title: 'Provenance',
  view: ({ result }, before) => ({ ...provenanceView(result), screenOnly: screenOnly(before) }),
  prints: true,
  leaves: null,
});

export function provenanceView({ tool, schema, version, scenario, inputs }: Result) {
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

/** As a list in a sentence. */
export function screenOnly(sections: readonly Pick<ShownSection, 'leaves'>[]): string {
  return sections.flatMap(({ leaves }) => leaves ?? []).join(', ');
}
