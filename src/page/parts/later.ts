/** Work that may wait: what hurries is shown first. */

/** Jobs done one a pause, in turn; when the work starts anew it goes on with the next, so that each gets its turn. */
export function inTurn(jobs: readonly (() => void)[]): { readonly start: () => void } {
  let next = 0;
  let left = 0;
  const step = () => {
    const job = jobs[next];
    next = (next + 1) % jobs.length;
    left -= 1;
    job?.();
    if (left > 0) setTimeout(step, 0);
  };
  return {
    start: () => {
      const isIdle = left === 0;
      left = jobs.length;
      if (isIdle) setTimeout(step, 0);
    },
  };
}

/** Once nothing has asked for it for a while. */
export function debounce(wait: number, work: () => void): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  return () => {
    clearTimeout(timer);
    timer = setTimeout(work, wait);
  };
}
