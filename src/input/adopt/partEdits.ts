/**
 * Edits of a scenario for the parts of an axle that were measured. A part that was measured stands with the one choice
 * that was built: what was cut can't be uncut, so its other cuts are no choice any more.
 */
import type { AxleAdoption } from '../../domain/audit/adoption.ts';
import type { AxleName } from '../../domain/scenario.ts';
import { bumpStopsOf, dampersOf, helpersOf, mountsOf, perchesOf, sleevesOf } from '../assemble/parts.ts';
import type { AxleFields } from '../schema/axle.ts';
import { valueAt } from '../schema/issues.ts';
import type { PathKey } from '../source/nodeAt.ts';
import { changedFamilies, fieldsOf, LISTS, type PartFamily, type PartField } from './partFields.ts';
import { likeWritten } from './quantityText.ts';
import type { TextEdit } from './textEdits.ts';
import { setField, writtenAt, type YamlText } from './yamlFields.ts';

export function partEdits(yaml: YamlText, axle: AxleFields, adoption: AxleAdoption): readonly TextEdit[] {
  return changedFamilies(adoption).flatMap((family) => {
    const entry = entryOf(sizesOf(family, axle), adoption.digits[family]);
    const path = ['axles', adoption.axle, LISTS[family], entry];
    const parsed = axle[LISTS[family]][entry];
    return fieldsOf(family, adoption).flatMap((field) => fieldEdits(yaml, path, parsed, field));
  });
}

/** How many options each entry of a family's list stands for. */
function sizesOf(family: PartFamily, axle: AxleFields): readonly number[] {
  switch (family) {
    case 'damper':
      return axle.dampers.map((entry) => dampersOf(entry).length);
    case 'mount':
      return axle.mounts.map((entry) => mountsOf(entry).length);
    case 'bumpStop':
      return axle.bump_stops.map((entry) => bumpStopsOf(entry).length);
    case 'sleeve':
      return axle.sleeves.map((entry) => sleevesOf(entry).length);
    case 'perch':
      return axle.perches.map((entry) => perchesOf(entry).length);
    case 'helper':
      return axle.helpers.map((entry) => (entry === 'none' ? 1 : helpersOf(entry).length));
  }
}

/** The entry of a list that an option comes from. */
export function entryOf(sizes: readonly number[], option: number): number {
  let before = 0;
  return sizes.findIndex((size) => {
    before += size;
    return option < before;
  });
}

function fieldEdits(yaml: YamlText, entry: readonly PathKey[], parsed: unknown, field: PartField): TextEdit[] {
  const values = valueAt(parsed, field.field);
  const isChoice = Array.isArray(values) && values.length > 1;
  const stands = Array.isArray(values) && values.length === 1 && values[0] === field.value;
  if (stands || !(isChoice || field.changed)) return [];
  const path = [...entry, ...field.field];
  const [name = ''] = field.field.slice(-1);
  const content = likeWritten(
    field.value,
    field.dimension,
    writtenAt(yaml, path) || writtenAt(yaml, [...entry, 'length']),
  );
  return [setField(yaml, path.slice(0, -1), name, content)];
}

/** Load on the wheels, and damper lengths measured against ride height. */
export function siteEdits(
  yaml: YamlText,
  axle: AxleFields,
  { axle: name, wheelLoad, changed }: AxleAdoption,
): TextEdit[] {
  const offset = changed.motion_offset;
  return [
    ...(wheelLoad === null ? [] : [loadEdit(yaml, name, wheelLoad)]),
    ...(offset === undefined
      ? []
      : axle.motion.pairs.map((pair, i) => pairEdit(yaml, name, i, pair.damper_length + offset))),
  ];
}

function loadEdit(yaml: YamlText, axle: AxleName, load: NonNullable<AxleAdoption['wheelLoad']>): TextEdit {
  const owner = ['axles', axle];
  const written = writtenAt(yaml, [...owner, 'wheel_load']);
  const kg = (value: number) => likeWritten(value, 'mass', written);
  const content = typeof load === 'number' ? kg(load) : `{ left: ${kg(load.left)}, right: ${kg(load.right)} }`;
  return setField(yaml, owner, 'wheel_load', content);
}

function pairEdit(yaml: YamlText, axle: AxleName, pair: number, length: number): TextEdit {
  const owner = ['axles', axle, 'motion', 'pairs', pair];
  const content = likeWritten(length, 'length', writtenAt(yaml, [...owner, 'damper_length']));
  return setField(yaml, owner, 'damper_length', content);
}
