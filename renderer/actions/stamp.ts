/** Now, to the second: when a document for another program was made. */
export function stamp(): string {
  return `${new Date().toISOString().slice(0, 19)}Z`;
}
