/**
 * What was measured, saved back into the scenario it was measured against: values replaced where they stand, comments,
 * order and everything else left byte for byte. Gives texts; writes nothing.
 *
 *   scenario and catalogues --edits at their places--> the same texts with the measured values
 */
import { posix } from 'node:path';
import type { AxleAdoption } from '../../domain/audit/adoption.ts';
import type { InputFile } from '../../domain/result.ts';
import { AXLE_NAMES } from '../../domain/scenario.ts';
import { catalogueName, type LoadedCatalogues, loadCatalogues } from '../catalogue/loadCatalogues.ts';
import { memoryFiles, withoutMark } from '../files.ts';
import { type ScenarioFields, scenario as schema } from '../schema/scenario.ts';
import { readYaml } from '../source/yamlDocument.ts';
import { partEdits, siteEdits } from './partEdits.ts';
import { catalogueEdits, type RowChange, springEdits } from './springEdits.ts';
import { edited, type TextEdit } from './textEdits.ts';
import { setField, type YamlText } from './yamlFields.ts';

/** How the files that change are called: their own names to write over them, others to write beside them. */
export interface AdoptedNames {
  readonly scenario: string;
  readonly catalogue: (name: string) => string;
}

/** The files that change, by their new names relative to the scenario's folder; null where both axles share a value. */
export type AdoptedFiles = Readonly<Record<string, string>>;

/** @param files the scenario first, then its catalogues, as they were read without a problem */
export async function adoptedFiles(
  files: readonly InputFile[],
  adoptions: readonly AxleAdoption[],
  names: AdoptedNames,
): Promise<AdoptedFiles | null> {
  const [scenario] = files;
  if (scenario === undefined) throw new RangeError('no scenario to adopt into');
  const mark = scenario.text.length - withoutMark(scenario.text).length;
  const { yaml, fields } = parsed(withoutMark(scenario.text));
  const catalogues = await loadCatalogues(yaml.document.data, memoryFiles(files), '.');
  const { inScenario, inCatalogues } = allEdits(yaml, fields, adoptions, catalogues);
  const renamed = renamings(yaml, fields, new Set(inCatalogues.keys()), names);
  const text = edited(yaml.text, [...inScenario, ...renamed]);
  const texts: [string, string | null][] = [...inCatalogues].map(([name, rows]) => {
    const before = catalogues.byName.get(name)?.file.text ?? '';
    return [names.catalogue(name), edited(before, catalogueEdits(before, rows))];
  });
  if (text === null || texts.some(([, each]) => each === null)) return null;
  return { [names.scenario]: scenario.text.slice(0, mark) + text, ...(Object.fromEntries(texts) as AdoptedFiles) };
}

function parsed(text: string): { readonly yaml: YamlText; readonly fields: ScenarioFields } {
  const { document } = readYaml(text);
  if (document === null) throw new RangeError('a scenario that cannot be read');
  return { yaml: { document, text }, fields: schema.parse(document.data) };
}

function allEdits(
  yaml: YamlText,
  { axles }: ScenarioFields,
  adoptions: readonly AxleAdoption[],
  catalogues: LoadedCatalogues,
) {
  const inScenario: TextEdit[] = [];
  const inCatalogues = new Map<string, RowChange[]>();
  for (const adoption of adoptions) {
    const axle = axles[adoption.axle];
    inScenario.push(...partEdits(yaml, axle, adoption), ...siteEdits(yaml, axle, adoption));
    const spring = springEdits(yaml, axle, adoption, catalogues);
    if (spring.catalogue === null) inScenario.push(...spring.edits);
    else inCatalogues.set(spring.catalogue, [...(inCatalogues.get(spring.catalogue) ?? []), spring.row]);
  }
  return { inScenario, inCatalogues };
}

/** The scenario names the changed catalogues by their new names, wherever it names them. */
function renamings(
  yaml: YamlText,
  { axles }: ScenarioFields,
  changed: ReadonlySet<string>,
  names: AdoptedNames,
): TextEdit[] {
  return AXLE_NAMES.flatMap((axle) =>
    axles[axle].springs.flatMap((entry, i) => {
      if (!('catalogue' in entry) || !changed.has(catalogueName(entry.catalogue))) return [];
      const name = names.catalogue(catalogueName(entry.catalogue));
      if (posix.normalize(entry.catalogue) === name) return [];
      return [setField(yaml, ['axles', axle, 'springs', i], 'catalogue', plainOrQuoted(name))];
    }),
  );
}

/** Text that YAML reads as itself, or in quotes. */
function plainOrQuoted(text: string): string {
  return /^[A-Za-z_][\w./-]*$/.test(text) ? text : JSON.stringify(text);
}
