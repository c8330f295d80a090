/**
 * Draws the app's icon: a lead line hanging from the waterline into the depth tints of a chart, its bar as
 * long as the time at the bottom. Written as SVG, PNG, ICO and ICNS into build/resources.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { chromium } from '@playwright/test';
import { findBrowser } from './find-browser';
import { at, isStarted } from './paths';
import { QUIET_FLAGS } from './test-browser';

/** The picture, on a square of 1024: paper above, four tints of water below, ink for line, weight and bar. */
export function iconSvg(): string {
  const tints = ['#d9e8ef', '#bcd7e4', '#9cc3d6', '#7aabc4'];
  const water = tints.map((tint, index) => {
    const y = 320 + index * 156;
    return `  <rect x="0" y="${y}" width="1024" height="${1024 - y}" fill="${tint}"/>`;
  });
  return [
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1024 1024">',
    '<clipPath id="page"><rect x="64" y="64" width="896" height="896" rx="176"/></clipPath>',
    '<g clip-path="url(#page)">',
    '  <rect width="1024" height="1024" fill="#f6f2e7"/>',
    ...water,
    '  <rect x="0" y="308" width="1024" height="24" fill="#1c2b3a"/>',
    '  <rect x="384" y="320" width="28" height="388" fill="#1c2b3a"/>',
    '  <path d="M352 700 h92 l28 96 h-148 z" fill="#1c2b3a"/>',
    '  <rect x="460" y="752" width="316" height="44" fill="#1c2b3a"/>',
    '  <path d="M776 774 L700 332" stroke="#1c2b3a" stroke-width="16" stroke-dasharray="6 40" stroke-linecap="round"/>',
    '  <rect x="0" y="560" width="1024" height="14" fill="#a3246f"/>',
    '</g>',
    '</svg>',
    '',
  ].join('\n');
}

const ICO_SIZES = [16, 24, 32, 48, 64, 256];
/** Apple's name of each size, each a PNG. Source: common practice, as written by every tool that makes them. */
const ICNS_TYPES: readonly (readonly [string, number])[] = [
  ['icp4', 16],
  ['icp5', 32],
  ['ic07', 128],
  ['ic08', 256],
  ['ic09', 512],
  ['ic10', 1024],
  ['ic11', 32],
  ['ic12', 64],
  ['ic13', 256],
  ['ic14', 512],
];

/** A Windows icon of PNG pictures: a header, a directory, the pictures. */
export function ico(pictures: readonly { readonly size: number; readonly png: Uint8Array }[]): Uint8Array {
  const header = Buffer.alloc(6);
  header.writeUInt16LE(1, 2);
  header.writeUInt16LE(pictures.length, 4);
  let offset = header.length + pictures.length * 16;
  const directory = pictures.map(({ size, png }) => {
    const entry = Buffer.alloc(16);
    // 256 is written as 0.
    entry.writeUInt8(size % 256, 0);
    entry.writeUInt8(size % 256, 1);
    entry.writeUInt16LE(1, 4);
    entry.writeUInt16LE(32, 6);
    entry.writeUInt32LE(png.length, 8);
    entry.writeUInt32LE(offset, 12);
    offset += png.length;
    return entry;
  });
  return Buffer.concat([header, ...directory, ...pictures.map(({ png }) => png)]);
}

/** An Apple icon of PNG pictures: each with its type and length before it. */
export function icns(pictures: readonly { readonly type: string; readonly png: Uint8Array }[]): Uint8Array {
  const blocks = pictures.map(({ type, png }) => {
    const head = Buffer.alloc(8);
    head.write(type, 'latin1');
    head.writeUInt32BE(png.length + 8, 4);
    return Buffer.concat([head, png]);
  });
  const body = Buffer.concat(blocks);
  const head = Buffer.alloc(8);
  head.write('icns', 'latin1');
  head.writeUInt32BE(body.length + 8, 4);
  return Buffer.concat([head, body]);
}

async function draw(): Promise<void> {
  const executablePath = findBrowser();
  const browser = await chromium.launch({
    args: [...QUIET_FLAGS],
    ...(executablePath === null ? {} : { executablePath }),
  });
  const page = await browser.newPage();
  const svg = iconSvg();
  const pngs = new Map<number, Uint8Array>();
  for (const size of [16, 24, 32, 48, 64, 128, 256, 512, 1024]) {
    // One page, one size after the other.
    // oxlint-disable-next-line no-await-in-loop
    await page.setViewportSize({ width: size, height: size });
    // oxlint-disable-next-line no-await-in-loop
    await page.setContent(
      `<style>body{margin:0}svg{display:block;width:${size}px;height:${size}px}</style>${svg}`,
    );
    // oxlint-disable-next-line no-await-in-loop
    pngs.set(size, await page.screenshot({ omitBackground: true }));
  }
  await browser.close();
  const png = (size: number): Uint8Array => pngs.get(size) ?? new Uint8Array();
  const folder = at('build/resources');
  mkdirSync(folder, { recursive: true });
  writeFileSync(`${folder}/icon.svg`, svg);
  writeFileSync(`${folder}/icon.png`, png(1024));
  writeFileSync(`${folder}/icon.ico`, ico(ICO_SIZES.map((size) => ({ size, png: png(size) }))));
  writeFileSync(`${folder}/icon.icns`, icns(ICNS_TYPES.map(([type, size]) => ({ type, png: png(size) }))));
}

if (isStarted(import.meta.url)) {
  await draw();
  console.log('icon: build/resources/icon.svg, .png, .ico, .icns');
}
