/** The package brings no types of its own. */
declare module '@bcoe/v8-coverage' {
  /** What V8 counted in one script: the format of Node's and Chromium's profilers. */
  export interface ScriptCov {
    readonly scriptId: string;
    readonly url: string;
    readonly functions: FunctionCov[];
  }

  export interface FunctionCov {
    readonly functionName: string;
    readonly ranges: { readonly startOffset: number; readonly endOffset: number; readonly count: number }[];
    readonly isBlockCoverage: boolean;
  }

  export interface ProcessCov {
    readonly result: ScriptCov[];
  }

  /** Adds up the counts of the scripts with one url. */
  export function mergeProcessCovs(processes: readonly ProcessCov[]): ProcessCov;
}
