/**
 * README.md read as a thing to be run: its example files, and its command lines with what they are said to print.
 *
 * A `yaml` or `csv` fence whose opening line names a file is that file. In a `console` fence a line that begins with
 * `$ springsift` is a command; `# exit code 2` behind it states its exit code, else 0 is meant; the lines below it are
 * what it prints. A line of three dots stands for lines left out: what follows it begins at the first line that reads
 * the same.
 */

import type { CommandRecord } from '../../src/cli/commands.ts';

export interface ManualFile {
  readonly path: string;
  readonly text: string;
}

export interface ManualCommand {
  /** Line of the command in the manual, from 1. */
  readonly line: number;
  readonly args: readonly string[];
  readonly exitCode: number;
  /** What the manual says is printed; empty where it says nothing. */
  readonly shown: readonly string[];
}

interface Fence {
  readonly info: string;
  /** Line of the first line inside, from 1. */
  readonly line: number;
  readonly lines: readonly string[];
}

const DOTS = '...';
const COMMAND = /^(?:\$ )?(?:npx )?springsift\b(.*?)(?:\s+# exit code (\d))?$/;

function fencesOf(text: string): readonly Fence[] {
  const fences: { info: string; line: number; lines: string[] }[] = [];
  let open = false;
  text.split('\n').forEach((line, k) => {
    if (line.startsWith('```')) {
      open = !open;
      if (open) fences.push({ info: line.slice(3).trim(), line: k + 2, lines: [] });
    } else if (open) fences.at(-1)?.lines.push(line);
  });
  return fences;
}

export function filesOf(text: string): readonly ManualFile[] {
  return fencesOf(text).flatMap(({ info, lines }) => {
    const path = /^(?:yaml|csv) (\S+)$/.exec(info)?.[1];
    return path === undefined ? [] : [{ path, text: `${lines.join('\n')}\n` }];
  });
}

/** Field names used in the YAML examples that are no files of their own. */
export function exampleFieldsOf(text: string): readonly string[] {
  const examples = fencesOf(text).filter(({ info }) => info === 'yaml');
  const lines = examples.flatMap(({ lines }) => lines.map((line) => line.replace(/#.*/, '')));
  return [...new Set(lines.flatMap((line) => [...line.matchAll(/([a-z_]+):(?= |$)/g)].map((match) => match[1] ?? '')))];
}

/** As a shell parts them, double quotes kept together. */
export function argsOf(line: string): readonly string[] {
  return [...line.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain ?? '');
}

export function commandsOf(text: string): readonly ManualCommand[] {
  return fencesOf(text)
    .filter(({ info }) => info === 'console')
    .flatMap(({ line: first, lines }) => {
      const starts = lines.flatMap((line, k) => (COMMAND.test(line) ? [k] : []));
      return starts.map((start, k) => {
        const [, rest = '', exitCode = '0'] = COMMAND.exec(lines[start] ?? '') ?? [];
        const end = starts[k + 1] ?? lines.length;
        return {
          line: first + start,
          args: argsOf(rest),
          exitCode: Number(exitCode),
          shown: lines.slice(start + 1, end),
        };
      });
    });
}

/**
 * What the manual should show of a command's output: the same cut-outs as now, with the lines of today.
 * @returns null where a cut-out's first line is not printed any more
 */
export function cutOut(shown: readonly string[], output: readonly string[]): readonly string[] | null {
  const fresh: string[] = [];
  const pieces = piecesOf(shown);
  let at = 0;
  for (const [k, piece] of pieces.entries()) {
    if (k > 0) fresh.push(DOTS);
    if (piece.length === 0) continue;
    const begin = k === 0 ? 0 : output.indexOf(piece[0] ?? '', at);
    if (begin < 0) return null;
    // Without dots behind it, what is shown goes on to the end of what is printed.
    at = k === pieces.length - 1 ? output.length : begin + piece.length;
    fresh.push(...output.slice(begin, at));
  }
  return fresh;
}

/** The runs of lines between the dots; there may be none before the first dots and none after the last. */
function piecesOf(shown: readonly string[]): readonly (readonly string[])[] {
  const pieces: string[][] = [[]];
  for (const line of shown) {
    if (line === DOTS) pieces.push([]);
    else pieces.at(-1)?.push(line);
  }
  return pieces;
}

/** The text with other lines below a command. */
export function withShown(text: string, { line, shown }: ManualCommand, fresh: readonly string[]): string {
  const lines = text.split('\n');
  lines.splice(line, shown.length, ...fresh);
  return lines.join('\n');
}

/** The table of commands, made from their records. */
export function commandTable(commands: readonly Pick<CommandRecord, 'name' | 'help' | 'example'>[]): string {
  const rows = commands.map(({ name, help, example }) => `| \`${name}\` | ${help} | \`springsift ${example}\` |`);
  return ['| command | what it does | for example |', '| --- | --- | --- |', ...rows].join('\n');
}

/** The manual with its table of commands made anew. */
export function withCommandTable(text: string, commands: Parameters<typeof commandTable>[0]): string {
  return text.replace(/\| command \|.*\n(?:\|.*\n)+/, () => `${commandTable(commands)}\n`);
}

/** The text with another combination's id, and with the ids of its two corners where they stand alone. */
export function withId(text: string, old: string, fresh: string): string {
  const cornersOf = (id: string) => id.split('-').slice(1, 3);
  const whole = old === '' ? text : text.replaceAll(old, fresh);
  return cornersOf(old).reduce((t, corner, k) => t.replaceAll(`\`${corner}\``, `\`${cornersOf(fresh)[k]}\``), whole);
}

/** Targets of links and pictures, e.g. `reports/frame.svg` or `#limits`. */
export function linksOf(text: string): readonly string[] {
  return [...withoutFences(text).matchAll(/\]\(([^)\s]+)\)/g)].map((match) => match[1] ?? '');
}

/** Anchors of all headings, the way Markdown pages are commonly shown: lower case, words joined by hyphens. */
export function anchorsOf(text: string): readonly string[] {
  return [...withoutFences(text).matchAll(/^#{1,6} (.+)$/gm)].map(
    ([, title = '']) =>
      `#${title
        .toLowerCase()
        .replace(/[^\p{L}\p{N} _-]/gu, '')
        .replaceAll(' ', '-')}`,
  );
}

/** Paths in backticks that begin with a folder of the project. */
export function pathsIn(text: string): readonly string[] {
  const paths = /`((?:src|test|scenarios|reports|\.ci)\/[\w./-]*)`/g;
  return [...new Set([...withoutFences(text).matchAll(paths)].map((match) => match[1] ?? ''))];
}

function withoutFences(text: string): string {
  return text.replace(/^```[\s\S]*?^```/gm, '');
}
