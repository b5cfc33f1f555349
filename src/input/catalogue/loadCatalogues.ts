/** Reads every catalogue a scenario names, each once, whatever else is wrong with the scenario. */
import { posix } from 'node:path';
import type { InputFile } from '../../domain/result.ts';
import { complaintOf, type FileReader, readText } from '../files.ts';
import { CATALOGUE } from '../messages/catalogue.ts';
import { outsideFolder } from '../messages/file.ts';
import type { Complaint, PlacedComplaint } from '../problems.ts';
import type { PathComplaint } from '../schema/issues.ts';
import { valueAt } from '../schema/issues.ts';
import type { PathKey } from '../source/nodeAt.ts';
import { type Catalogue, readCatalogue } from './readCatalogue.ts';

const MOST_BYTES = 50_000_000;

export interface LoadedCatalogue extends Catalogue {
  readonly file: InputFile;
}

export interface LoadedCatalogues {
  /** By the path relative to the scenario's folder, `springs.csv` for `./springs.csv` too. */
  readonly byName: ReadonlyMap<string, LoadedCatalogue>;
  /** Complaints about the references themselves. */
  readonly complaints: readonly PathComplaint[];
}

interface Reference {
  readonly path: readonly PathKey[];
  readonly name: string;
}

export async function loadCatalogues(data: unknown, read: FileReader, folder: string): Promise<LoadedCatalogues> {
  const results = new Map<string, LoadedCatalogue | { readonly complaint: Complaint }>();
  const complaints: PathComplaint[] = [];
  for (const { path, name } of references(data)) {
    const result = results.get(name) ?? (await load(name, read, folder));
    results.set(name, result);
    if ('complaint' in result) complaints.push({ path, at: 'value', complaint: result.complaint });
  }
  const loaded = [...results].flatMap(([name, result]) => ('file' in result ? [[name, result] as const] : []));
  return { byName: new Map(loaded), complaints };
}

/** The path as a catalogue is known by: without `./` and doubled slashes. */
export function catalogueName(written: string): string {
  return posix.normalize(written);
}

function references(data: unknown): readonly Reference[] {
  return ['front', 'rear'].flatMap((axle) => {
    const list = valueAt(data, ['axles', axle, 'springs']);
    if (!Array.isArray(list)) return [];
    return list.flatMap((_, index) => {
      const path = ['axles', axle, 'springs', index, 'catalogue'];
      const written = valueAt(data, path);
      // What is no usable path at all is the schema's to complain about.
      return typeof written === 'string' && /^[^\p{Cc}]{1,400}$/u.test(written)
        ? [{ path, name: catalogueName(written) }]
        : [];
    });
  });
}

async function load(
  name: string,
  read: FileReader,
  folder: string,
): Promise<LoadedCatalogue | { readonly complaint: Complaint }> {
  const path = posix.isAbsolute(name) ? name : posix.join(folder, name);
  const outside = read.anywhere ? null : await outsideOf(folder, path, name, read);
  if (outside !== null) return { complaint: outside };
  const text = await readText(read, path, name, CATALOGUE, MOST_BYTES);
  if ('complaint' in text) return text;
  return { file: text.file, ...(await readCatalogue(text.file.text)) };
}

/** A complaint when the file lies outside the scenario's folder, as written or through a symbolic link. */
async function outsideOf(folder: string, path: string, name: string, read: FileReader): Promise<Complaint | null> {
  if (posix.isAbsolute(name) || name === '..' || name.startsWith('../')) return outsideFolder(name);
  try {
    const [realFolder, realPath] = [await read.realPath(folder), await read.realPath(path)];
    const inside = realPath.startsWith(realFolder.endsWith('/') ? realFolder : `${realFolder}/`);
    return inside ? null : outsideFolder(name);
  } catch (error) {
    return complaintOf(error, CATALOGUE, MOST_BYTES);
  }
}

export type CatalogueProblems = readonly { readonly name: string; readonly problem: PlacedComplaint }[];

/** The problems inside the catalogues, with the catalogue's name. */
export function problemsIn({ byName }: LoadedCatalogues): CatalogueProblems {
  return [...byName].flatMap(([name, { problems }]) => problems.map((problem) => ({ name, problem })));
}
