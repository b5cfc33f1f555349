/** `sweep SCENARIO --shard I/N` and `merge SCENARIO PART...`: one sweep shared out over machines. */

import { basename, dirname } from 'node:path';
import { regularBytes } from '../../input/source/disk.ts';
import { FileTooLarge, NotRegular } from '../../input/source/files.ts';
import { draw, PAGE_NAMES } from '../../pipeline/drawing.ts';
import { hasAnswer, join, siftShare } from '../../pipeline.ts';
import { sweepSummary } from '../../report/files/summary.ts';
import { MOST_PARTS, type Part, partIn, partText, type Share } from '../../sweep/shard.ts';
import { badInput, EXIT, type ExitCode } from '../terminal/exit.ts';
import { prepareFolder, settleBeside, writeAndSay } from '../terminal/files.ts';
import * as say from '../terminal/messages.ts';
import { defaultFolder, guardSize, nameOf } from '../terminal/places.ts';
import { toolVersion } from '../terminal/version.ts';
import { load } from './load.ts';
import { refuseTooMuch, type SweepOptions, watched } from './sweep.ts';

/** More than any part has. */
const MOST_BYTES = 256_000_000;

/** Reads `3/8`: the third of eight parts. */
export function readShare(text: string): Share {
  const match = /^(\d+)\/(\d+)$/.exec(text.trim());
  const index = Number(match?.[1]);
  const count = Number(match?.[2]);
  if (!match || count < 1 || index < 1 || index > count) throw badInput(say.notAShare(text));
  if (count > MOST_PARTS) throw badInput(say.tooManyShares(text, MOST_PARTS));
  return { index, count };
}

/** Sweeps one share and writes it as a part file. */
export async function sweepShare(path: string, share: Share, options: SweepOptions): Promise<ExitCode> {
  if ((options.rankBy ?? 'nominal') !== 'nominal' || options.keepPartial) throw badInput(say.notWithShares());
  const checked = await load(path, options);
  refuseTooMuch(nameOf(path), checked, options.limit);
  const { out: folder = defaultFolder(path), force = false } = options;
  const file = `part-${share.index}-of-${share.count}.json`;
  await prepareFolder(folder, [file], force, true);
  const work = (run: Parameters<typeof siftShare>[3]) => siftShare(checked, toolVersion(), share, run);
  const { value: part } = await watched(nameOf(path), options, work, false);
  await writeAndSay(folder, { [file]: partText(part) }, force);
  return EXIT.ok;
}

/** Joins part files to the report of a single run. */
export async function merge(path: string, partPaths: readonly string[], options: SweepOptions): Promise<ExitCode> {
  const checked = await load(path, options);
  const { out: folder = defaultFolder(path), force = false } = options;
  await prepareFolder(folder, PAGE_NAMES, force, true);
  const parts = await Promise.all(partPaths.map(readPart));
  const result = join(checked, toolVersion(), parts, { rankBy: options.rankBy ?? 'nominal' });
  if ('kind' in result) throw badInput(say.doesNotJoin(result, partPaths));
  const pages = await draw(result);
  guardSize(pages, force);
  await writeAndSay(folder, { ...pages }, force, (paths) => `${sweepSummary(result)}${say.wrote(paths)}`);
  return hasAnswer(result) ? EXIT.ok : EXIT.nothingWorkable;
}

async function readPart(path: string): Promise<Part> {
  await settleBeside(path);
  const bytes = await regularBytes(path, MOST_BYTES).catch((error: Error) => {
    const isSaid = error instanceof NotRegular || error instanceof FileTooLarge;
    throw badInput(say.unreadablePart(path, isSaid ? error.message : say.codeOf(error)));
  });
  const text = bytes.toString('utf8');
  const part = partIn(text);
  if (part === null || part.toolVersion !== toolVersion()) {
    throw badInput(say.notAPart(basename(path), dirname(path), toolVersion()));
  }
  return part;
}
