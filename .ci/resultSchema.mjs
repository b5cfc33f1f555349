// Makes the JSON Schemas of results and of part files from their types: comments become descriptions, their tags limits.
import { createRequire } from 'node:module';
import {
  createFormatter,
  createParser,
  DEFAULT_CONFIG,
  EnumType,
  NullType,
  NumberType,
  ObjectType,
  SchemaGenerator,
  UnionType,
} from 'ts-json-schema-generator';

// The compiler whose syntax trees the generator reads.
const ts = createRequire(import.meta.resolve('ts-json-schema-generator'))('typescript');

const DRAFT = 'https://json-schema.org/draft/2020-12/schema';
const OPTIONS = {
  strict: true,
  noEmit: true,
  allowImportingTsExtensions: true,
  module: ts.ModuleKind.NodeNext,
  target: ts.ScriptTarget.ES2023,
  types: [],
};

/**
 * The text of `results.schema.json`.
 * @param entry file that exports the type of the record
 * @param snakeKey how a key or the name of a part family is written
 */
export function resultJsonSchema(entry, snakeKey) {
  const { definitions, ...schema } = generated(entry, 'Result');
  definitions.Family.enum = definitions.Family.enum.map(snakeKey);
  const { version } = schema.properties;
  const head = {
    $schema: DRAFT,
    $id: `springsift-result-${version.const}`,
    title: `springsift result, version ${version.const}`,
  };
  const named = (key, value) => {
    if (key === 'properties') return Object.fromEntries(Object.entries(value).map(([k, v]) => [snakeKey(k), v]));
    return key === 'required' ? value.map(snakeKey) : value;
  };
  return textOf({ ...schema, ...head, $defs: definitions }, named);
}

/** The text of `part.schema.json`. */
export function partJsonSchema(entry) {
  const { definitions, ...schema } = generated(entry, 'Part');
  return textOf({ ...schema, $schema: DRAFT, $defs: definitions }, (_, value) => value);
}

function textOf(schema, named) {
  // Lists of fixed places as this draft has them.
  const written = (key, value) => {
    const { items, ...rest } = value ?? {};
    return Array.isArray(items) ? { ...rest, prefixItems: items } : named(key, value);
  };
  return `${JSON.stringify(schema, written, 2).replaceAll('"#/definitions/', '"#/$defs/')}\n`;
}

function generated(entry, root) {
  const program = ts.createProgram([entry], OPTIONS);
  const config = { ...DEFAULT_CONFIG, additionalProperties: false, topRef: false, sortProps: false };
  const parser = createParser(program, config, (chain) =>
    chain.addNodeParser(keysOfValue(program.getTypeChecker())).addNodeParser(values),
  );
  return new SchemaGenerator(program, parser, createFormatter(config), config).createSchema(root);
}

/** Numbers by key: the keys follow from tables, which other programs needn't know. */
const values = {
  supportsNode: (node) =>
    ts.isTypeReferenceNode(node) && ['CornerValues', 'PairValues'].includes(node.typeName.getText()),
  createType: (node) => new ObjectType(node.getText(), [], [], new UnionType([new NumberType(), new NullType()])),
};

/** `keyof typeof TABLE`: the generator reads types, and a table is a value. */
function keysOfValue(checker) {
  return {
    supportsNode: (node) => ts.isTypeOperatorNode(node) && ts.isTypeQueryNode(node.type),
    createType: (node) =>
      new EnumType(
        node.getText(),
        checker.getTypeFromTypeNode(node).types.map(({ value }) => value),
      ),
  };
}
