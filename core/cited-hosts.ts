/**
 * The few places on the web whose documents the figures and cautions cite. No other address is ever
 * opened from the window; the app itself fetches nothing from anywhere.
 */
export const CITED_HOSTS: readonly string[] = [
  'archive.rubicon-foundation.org',
  'dan.org',
  'doi.org',
  'www.frontiersin.org',
  'www.imca-int.com',
  'www.navsea.navy.mil',
  'www.omao.noaa.gov',
  'www.thieme-connect.com',
];
