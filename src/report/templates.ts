/** The one reader of templates and styles; they lie beside this file, in sources and when compiled. */
import { readdir, readFile } from 'node:fs/promises';
import Handlebars from 'handlebars';

const FOLDER = new URL('./templates/', import.meta.url);

/** Parts in the order in which they stand in the page; later ones win. */
const STYLES = [
  'base',
  'layout',
  'tables',
  'charts',
  'drawing',
  'advice',
  'plan',
  'build-sheet',
  'controls',
  'live',
  'print',
  'print-answer',
  'print-tables',
  'print-pictures',
  'print-sheets',
];

export interface Templates {
  readonly css: string;
  readonly page: (view: object) => string;
  readonly comparison: (view: object) => string;
  readonly changes: (view: object) => string;
  /** What the page of changes adds to the styles. */
  readonly changesCss: string;
  readonly measure: (view: object) => string;
  /** What the measuring sheet adds to the styles. */
  readonly measureCss: string;
  readonly audit: (view: object) => string;
  /** What the audit's page adds to the styles. */
  readonly auditCss: string;
}

/** Every `.hbs` file is a partial under its path, e.g. `sections/answer`; `page` is the outermost. */
export async function loadTemplates(): Promise<Templates> {
  const bars = Handlebars.create();
  for (const name of await templateNames()) {
    bars.registerPartial(name, await readFile(new URL(`${name}.hbs`, FOLDER), 'utf8'));
  }
  // Strict: a field that a view lacks is an error, never an empty place in the page.
  const strict = { strict: true, preventIndent: true };
  const page = bars.compile('{{> page}}', strict);
  const comparison = bars.compile('{{> comparison}}', strict);
  const changes = bars.compile('{{> changes}}', strict);
  const changesCss = await readFile(new URL('styles/changes.css', FOLDER), 'utf8');
  const measure = bars.compile('{{> measure}}', strict);
  const measureCss = await readFile(new URL('styles/measure.css', FOLDER), 'utf8');
  const audit = bars.compile('{{> audit}}', strict);
  const auditCss = await readFile(new URL('styles/audit.css', FOLDER), 'utf8');
  const css = await Promise.all(STYLES.map((name) => readFile(new URL(`styles/${name}.css`, FOLDER), 'utf8')));
  return { css: css.join(''), page, comparison, changes, changesCss, measure, measureCss, audit, auditCss };
}

async function templateNames(): Promise<string[]> {
  const folders = ['', 'sections/', 'parts/'];
  const names = await Promise.all(
    folders.map(async (folder) => {
      const files = await readdir(new URL(folder === '' ? '.' : folder, FOLDER));
      return files.filter((file) => file.endsWith('.hbs')).map((file) => folder + file.slice(0, -'.hbs'.length));
    }),
  );
  return names.flat().sort();
}
