/** The one reader of templates and styles; they lie beside this file, in sources and when compiled. */
import { readdir, readFile } from 'node:fs/promises';
import Handlebars from 'handlebars';

const FOLDER = new URL('./templates/', import.meta.url);

/** Parts in the order in which they stand in the page; later ones win. */
const STYLES = ['base', 'layout', 'tables', 'charts', 'drawing', 'advice', 'plan', 'print'];

export interface Templates {
  readonly css: string;
  readonly page: (view: object) => string;
  readonly comparison: (view: object) => string;
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
  const css = await Promise.all(STYLES.map((name) => readFile(new URL(`styles/${name}.css`, FOLDER), 'utf8')));
  return { css: css.join(''), page, comparison };
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
