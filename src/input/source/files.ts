/** Where texts come from, and what is said where they can't be read. The disk's reader is in `disk.ts`. */

import { createHash } from 'node:crypto';
import { posix, sep } from 'node:path';
import type { InputFile } from '../../result/result.ts';
import {
  fileEmpty,
  fileNotFound,
  fileNotRegular,
  fileNotText,
  fileTooLarge,
  fileUnreadable,
} from '../problems/file.ts';
import type { Complaint } from '../problems/problems.ts';

/** Where files come from. Both functions reject with an error that carries a `code` such as `ENOENT`. */
export interface FileReader {
  /** True when a scenario may name files outside its own folder. */
  readonly anywhere: boolean;
  /** The path with every symbolic link followed. */
  realPath(path: string): Promise<string>;
  /** Whole content; `FileTooLarge` when there are more bytes than `most`. */
  bytes(path: string, most: number): Promise<Uint8Array>;
}

export class FileTooLarge extends Error {
  readonly bytes: number;

  constructor(bytes: number) {
    super(`file of ${bytes} bytes`);
    this.bytes = bytes;
  }
}

/** Something that can be read and is no file on a disk: reading it might never end. */
export class NotRegular extends Error {
  readonly kind: 'a device' | 'a pipe' | 'a socket';

  constructor(kind: NotRegular['kind']) {
    super(`${kind}, not a file`);
    this.kind = kind;
  }
}

/** The files a report carries, as if they lay in one folder: an old report can be swept again. */
export function memoryFiles(files: readonly Pick<InputFile, 'path' | 'text'>[], anywhere = false): FileReader {
  const texts = new Map(files.map(({ path, text }) => [posix.normalize(path), text]));
  const find = (path: string): string => {
    const text = texts.get(posix.normalize(path));
    if (text === undefined) throw Object.assign(new Error('not among the files'), { code: 'ENOENT' });
    return text;
  };
  return {
    anywhere,
    async realPath(path) {
      // Folders have no entry of their own.
      const folder = path === '.' || files.some((file) => file.path.startsWith(`${posix.normalize(path)}/`));
      if (!folder) find(path);
      return posix.resolve('/', path);
    },
    async bytes(path, most) {
      const inside = posix.relative('/', posix.resolve('/', path));
      const bytes = new TextEncoder().encode(find(texts.has(posix.normalize(path)) ? path : inside));
      if (bytes.length > most) throw new FileTooLarge(bytes.length);
      return bytes;
    },
  };
}

export type TextFile = { readonly file: InputFile } | { readonly complaint: Complaint };

/** A text file with its digest; `name` is how the result will call it, `what` what it should have been. */
export async function readText(
  read: FileReader,
  path: string,
  name: string,
  what: string,
  most: number,
): Promise<TextFile> {
  let bytes: Uint8Array;
  try {
    bytes = await read.bytes(path, most);
  } catch (error) {
    return { complaint: complaintOf(error, what, most) };
  }
  const text = decode(bytes);
  if (text === null) return { complaint: fileNotText() };
  if (text.trim() === '') return { complaint: fileEmpty(what) };
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  return { file: { path: name, sha256, bytes: bytes.length, text } };
}

/** The complaint for an error of a `FileReader`; what is no user's mistake is thrown on. */
export function complaintOf(error: unknown, what: string, most: number): Complaint {
  if (error instanceof NotRegular) return fileNotRegular(what, error.kind);
  if (error instanceof FileTooLarge) return fileTooLarge(error.bytes, most);
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  if (code === 'ENOENT' || code === 'ENOTDIR') return fileNotFound(what);
  if (/^(?:E[A-Z]+|ERR_INVALID_ARG_VALUE)$/.test(code)) return fileUnreadable(what, code);
  throw error;
}

/** UTF-8 text as it stands (a byte order mark kept, so that its digest can be checked), or null. */
function decode(bytes: Uint8Array): string | null {
  try {
    const text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
    return text.includes('\0') ? null : text;
  } catch {
    return null;
  }
}

/** The text without a byte order mark. */
export function withoutMark(text: string): string {
  return text.startsWith('\uFEFF') ? text.slice(1) : text;
}

export function toPosix(path: string): string {
  return path.split(sep).join('/');
}
