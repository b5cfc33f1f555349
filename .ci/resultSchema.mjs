// Makes the JSON Schema of results from the types of the record: comments become descriptions, their tags limits.
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

const ROOT_TYPE = 'Result';
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
  const { definitions, ...schema } = generated(entry);
  definitions.Family.enum = definitions.Family.enum.map(snakeKey);
  const { version } = schema.properties;
  const head = {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    $id: `springsift-result-${version.const}`,
    title: `springsift result, version ${version.const}`,
  };
  const written = (key, value) => {
    if (key === 'properties') return Object.fromEntries(Object.entries(value).map(([k, v]) => [snakeKey(k), v]));
    return key === 'required' ? value.map(snakeKey) : value;
  };
  const text = JSON.stringify({ ...schema, ...head, $defs: definitions }, written, 2);
  return `${text.replaceAll('"#/definitions/', '"#/$defs/')}\n`;
}

function generated(entry) {
  const program = ts.createProgram([entry], OPTIONS);
  const config = { ...DEFAULT_CONFIG, additionalProperties: false, topRef: false, sortProps: false };
  const parser = createParser(program, config, (chain) =>
    chain.addNodeParser(keysOfValue(program.getTypeChecker())).addNodeParser(values),
  );
  return new SchemaGenerator(program, parser, createFormatter(config), config).createSchema(ROOT_TYPE);
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
