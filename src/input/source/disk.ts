/** The disk as a source of files. The only reader of it in this layer. */

import { createReadStream } from 'node:fs';
import { realpath, stat } from 'node:fs/promises';
import { type FileReader, FileTooLarge, NotRegular, toPosix } from './files.ts';

/**
 * The whole content of a file of at most so many bytes.
 * @throws FileTooLarge, NotRegular before anything is read, and errors of the disk with their `code`
 */
export async function regularBytes(path: string, most: number): Promise<Buffer> {
  const found = await stat(path);
  if (found.isFIFO()) throw new NotRegular('a pipe');
  if (found.isSocket()) throw new NotRegular('a socket');
  if (found.isCharacterDevice() || found.isBlockDevice()) throw new NotRegular('a device');
  if (found.isFile() && found.size > most) throw new FileTooLarge(found.size);
  const chunks: Buffer[] = [];
  // What grows meanwhile, or does not tell its size, is read no further than that.
  for await (const chunk of createReadStream(path, { end: most, highWaterMark: CHUNK })) chunks.push(chunk as Buffer);
  const bytes = Buffer.concat(chunks);
  if (bytes.length > most) throw new FileTooLarge(bytes.length);
  return bytes;
}

const CHUNK = 1_048_576;

/** The disk: a scenario's own folder and what lies below it. */
export const diskFiles: FileReader = {
  anywhere: false,
  async realPath(path) {
    return toPosix(await realpath(path));
  },
  bytes: regularBytes,
};

/** The whole disk, for somebody who says so. */
export const diskFilesAnywhere: FileReader = { ...diskFiles, anywhere: true };
