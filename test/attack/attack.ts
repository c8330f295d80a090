/** What an attack made of the product. */
export interface Outcome {
  /** How often something was tried. */
  readonly tried: number;
  /** Worth knowing, a line each: what was read, what was refused, the slowest. */
  readonly told: readonly string[];
  /** What must not have happened, a line each; empty where the product held. */
  readonly fell: readonly string[];
}

/** One way of attacking the product: whole by `npm run attack`, in part by `npm test`. */
export interface Attack {
  readonly title: string;
  /** How often the whole attack tries. */
  readonly whole: number;
  /** How often `npm test` does. */
  readonly quick: number;
  readonly run: (times: number) => Promise<Outcome> | Outcome;
}
