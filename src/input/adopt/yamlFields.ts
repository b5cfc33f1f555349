/** Edits of single fields of a YAML text: a value replaced where it stands, or a field put in beside its neighbours. */
import { valueAt } from '../schema/issues.ts';
import type { PathKey } from '../source/nodeAt.ts';
import type { SourceDocument } from '../source/yamlDocument.ts';
import type { TextEdit } from './textEdits.ts';

export interface YamlText {
  readonly document: SourceDocument;
  readonly text: string;
}

/** What stands at a path, as it is written; '' where nothing does. */
export function writtenAt(yaml: YamlText, path: readonly PathKey[]): string {
  if (valueAt(yaml.document.data, path) === undefined) return '';
  const { start, end } = valueRange(yaml, path);
  return yaml.text.slice(start, end);
}

/** Sets the field `name` of the mapping at `owner`; comments and everything else stay. */
export function setField(yaml: YamlText, owner: readonly PathKey[], name: string, content: string): TextEdit {
  const path = [...owner, name];
  if (valueAt(yaml.document.data, path) !== undefined) return { ...valueRange(yaml, path), text: content };
  return putIn(yaml, owner, `${name}: ${content}`);
}

/** A block's range ends with its last line; what stands behind that belongs to what follows. */
function valueRange({ document, text }: YamlText, path: readonly PathKey[]) {
  const [start, end] = document.range(path, 'value');
  return { start, end: start + text.slice(start, end).trimEnd().length };
}

/** Before the second field of the mapping, so that its name stays the first. */
function putIn({ document, text }: YamlText, owner: readonly PathKey[], field: string): TextEdit {
  const keys = Object.keys((valueAt(document.data, owner) ?? {}) as object);
  const [start] = document.range([...owner, keys[1] ?? keys[0] ?? ''], 'key');
  const [open] = document.range(owner, 'inside');
  const indent = text.slice(text.lastIndexOf('\n', start - 1) + 1, start);
  const put = text[open] === '{' ? `${field}, ` : `${field}\n${indent.replace(/\S/g, ' ')}`;
  return { start, end: start, text: put };
}
