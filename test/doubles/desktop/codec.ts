/**
 * Values on their way between main and page, as structured cloning would carry them: typed arrays, maps,
 * sets, dates and undefined survive; functions and other classes are refused, as the runtime refuses them.
 * Each function stands alone, because its text is also put into the page.
 */

/** A value as JSON that `unpack` turns back. */
export function pack(value: unknown): unknown {
  const packed = (inner: unknown): unknown => {
    if (inner === undefined) return { $: 'undefined' };
    if (inner === null || typeof inner === 'string' || typeof inner === 'boolean') return inner;
    if (typeof inner === 'number') return Number.isFinite(inner) ? inner : { $: 'number', of: String(inner) };
    if (typeof inner !== 'object') throw new Error(`An object could not be cloned: ${String(inner)}`);
    if (Array.isArray(inner)) return inner.map(packed);
    if (ArrayBuffer.isView(inner)) {
      const bytes = new Uint8Array(inner.buffer, inner.byteOffset, inner.byteLength);
      let text = '';
      for (const byte of bytes) text += String.fromCharCode(byte);
      return { $: 'bytes', of: btoa(text) };
    }
    if (inner instanceof Map) return { $: 'map', of: [...inner].map(packed) };
    if (inner instanceof Set) return { $: 'set', of: [...inner].map(packed) };
    if (inner instanceof Date) return { $: 'date', of: inner.getTime() };
    return { $: 'object', of: Object.entries(inner).map(([key, each]) => [key, packed(each)]) };
  };
  return packed(value);
}

/** The value that `pack` was given. */
export function unpack(value: unknown): unknown {
  const unpacked = (inner: unknown): unknown => {
    if (typeof inner !== 'object' || inner === null) return inner;
    if (Array.isArray(inner)) return inner.map(unpacked);
    const { $, of } = inner as { $: string; of: unknown };
    const parts = of as unknown[];
    switch ($) {
      case 'undefined':
        return undefined;
      case 'number':
        return Number(of);
      case 'bytes':
        return Uint8Array.from(atob(of as string), (char) => char.charCodeAt(0));
      case 'map':
        return new Map(parts.map((part) => unpacked(part) as [unknown, unknown]));
      case 'set':
        return new Set(parts.map(unpacked));
      case 'date':
        return new Date(of as number);
      default:
        return Object.fromEntries((parts as [string, unknown][]).map(([key, each]) => [key, unpacked(each)]));
    }
  };
  return unpacked(value);
}
