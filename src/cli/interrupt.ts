/** Ctrl-C and a polite kill: the first one asks the work to stop, the second one ends the process. */
export interface Interrupt {
  readonly signal: AbortSignal;
  release(): void;
}

const SIGNALS = ['SIGINT', 'SIGTERM'] as const;

export function watchInterrupts(): Interrupt {
  const controller = new AbortController();
  const onSignal = () => {
    if (controller.signal.aborted) process.exit(130);
    controller.abort();
  };
  for (const name of SIGNALS) process.on(name, onSignal);
  return {
    signal: controller.signal,
    release() {
      for (const name of SIGNALS) process.off(name, onSignal);
    },
  };
}
