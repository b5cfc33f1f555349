/**
 * The one reader of templates and styles; they lie beside this file, in sources and when compiled.
 *
 *   view + template + styles --> page
 */

import { createHash } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import Handlebars from 'handlebars';
import { themeCss } from './theme.ts';

/** Outermost templates; a page’s own styles have its name. */
export type PageName = 'page' | 'comparison' | 'changes' | 'measure' | 'audit' | 'fitting';

const SHARED = new URL('./templates/', import.meta.url);
const SECTIONS = new URL('../sections/', import.meta.url);

/** In this order; those of the sections follow, then those of the page. Later ones win. */
const BASE = ['base', 'tables', 'controls', 'print'];

/** Strict: a field that a view lacks is an error, never an empty place in the page. */
const OPTIONS = { strict: true, preventIndent: true };

/** A page that loads and sends nothing and runs only its own scripts; those of the sheet on threads of their own, too. */
export async function renderPage(name: PageName, view: object, scripts: readonly string[] = []): Promise<string> {
  const [bars, css] = await Promise.all([templates(), stylesOf(name)]);
  const render = bars.compile(`{{> ${name}}}`, OPTIONS);
  const threads = name === 'measure' ? '; worker-src blob:' : '';
  return render({ ...view, css, scripts, policy: contentPolicy(css, scripts) + threads });
}

let known: ReturnType<typeof readTemplates> | null = null;

/** Read once a run, each compiled when it is first wanted. */
function templates(): ReturnType<typeof readTemplates> {
  known ??= readTemplates();
  return known;
}

/** Every `.hbs` file is a partial under its name, and every `{{#*inline}}` piece in it one under its own. */
async function readTemplates(): Promise<typeof Handlebars> {
  const bars = Handlebars.create();
  const register = (name: string, template: hbs.AST.Program) => {
    if (Object.hasOwn(bars.partials, name)) throw new Error(`Two templates have the name “${name}”.`);
    bars.registerPartial(name, bars.compile(template, OPTIONS));
  };
  for (const [name, text] of await filesIn([SHARED, SECTIONS], '.hbs')) {
    const file = bars.parse(text);
    const [pieces, rest] = [file.body.filter(isPiece), file.body.filter((part) => !isPiece(part))];
    for (const { params, program } of pieces) register(nameOf(params[0]), program);
    register(name, { ...file, body: rest });
  }
  return bars;
}

function isPiece(part: hbs.AST.Statement): part is hbs.AST.DecoratorBlock {
  return part.type === 'DecoratorBlock';
}

function nameOf(param: hbs.AST.Expression | undefined): string {
  return (param as hbs.AST.StringLiteral).value;
}

async function stylesOf(page: PageName): Promise<string> {
  const shared = new Map(await filesIn([SHARED], '.css'));
  const sections = await filesIn([SECTIONS], '.css');
  const texts = [...BASE.map((name) => shared.get(name)), ...sections.map(([, text]) => text), shared.get(page)];
  return minify(`${themeCss()}\n${texts.filter((text) => text !== undefined).join('')}`);
}

/** Name without ending, and text, sorted by name. */
async function filesIn(folders: readonly URL[], ending: string): Promise<[name: string, text: string][]> {
  const files = await Promise.all(
    folders.map(async (folder) => {
      const names = (await readdir(folder)).filter((name) => name.endsWith(ending)).sort();
      return names.map(async (name): Promise<[string, string]> => {
        return [name.slice(0, -ending.length), await readFile(new URL(name, folder), 'utf8')];
      });
    }),
  );
  return Promise.all(files.flat());
}

/**
 * Nothing may be loaded or sent. The one style sheet and the page's own scripts are known by their digests: style
 * attributes, handlers in attributes and any other script are refused.
 */
function contentPolicy(css: string, scripts: readonly string[]): string {
  const allowed = scripts.length > 0 ? scripts.map(digestOf).join(' ') : "'none'";
  return `default-src 'none'; style-src ${digestOf(css)}; script-src ${allowed}; img-src data:; base-uri 'none'; form-action 'none'`;
}

function digestOf(text: string): string {
  return `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
}

/** Comments, indentation and blanks are for whoever edits the styles; what stands in quotes is for the reader. */
export function minify(css: string): string {
  const pieces = css.replace(/\/\*[\s\S]*?\*\//g, '').split(/("[^"\n]*"|'[^'\n]*')/);
  return pieces
    .map((piece, k) => (k % 2 === 1 ? piece : withoutBlanks(piece)))
    .join('')
    .trim();
}

function withoutBlanks(css: string): string {
  return css
    .replace(/\s*\n\s*/g, '\n')
    .replace(/\s*([{};])\s*/g, '$1')
    .replace(/,\s+/g, ',')
    .replace(/(?<=[{;][\w-]+):\s+/g, ':')
    .replace(/;}/g, '}')
    .replace(/(?<=[\s:(,])0\.(?=\d)/g, '.');
}

// The scripts that a page carries: browser code of `src/page`, each made into one small file by the build.

/** `dist` lies three folders up, from the sources and from the compiled files. */
const BUILT = fileURLToPath(new URL('../../../dist/page/', import.meta.url));

/** The text of a script by its name. Error: it was not built. */
export async function pageScript(name: string): Promise<string> {
  // While browser tests measure coverage, a folder with the same scripts before they are made short.
  const folder = process.env.SPRINGSIFT_READABLE_SCRIPTS ?? BUILT;
  try {
    return await readFile(join(folder, `${name}.js`), 'utf8');
  } catch (cause) {
    throw new Error(`The page’s script “${name}” was not built: run npm run build.`, { cause });
  }
}
