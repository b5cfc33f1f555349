/** The process that fuzzes: it may hang or run out of memory, its watcher may not. */
import { type Batch, runBatch } from './run.ts';

process.on('message', async (batch: Batch) => {
  const outcome = await runBatch(batch, (number) => process.send?.({ begun: number }));
  process.send?.({ outcome });
});

// Without its watcher nobody would read what it finds.
process.on('disconnect', () => process.exit());
