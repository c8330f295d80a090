/** What the tests use of odex. Its package ships loose TypeScript source, which our settings would not compile. */
export declare class Solver {
  constructor(dimension: number);
  absoluteTolerance: number;
  relativeTolerance: number;
  maxSteps: number;
  solve(
    slope: (x: number, y: number[]) => number[],
    x: number,
    y: number[],
    xEnd: number,
  ): { readonly y: number[] };
}
