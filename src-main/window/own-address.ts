/** The scheme and host of our pages inside Electron. */
export const scheme = 'app';
const host = 'stillstring';

/** Where the window starts. */
export const frontPage = `${scheme}://${host}/`;

/** Whether an address is one of our own pages; taken apart as an address, since `app://stillstring.example` begins alike. */
export function isOwnAddress(address: string): boolean {
  if (!URL.canParse(address)) return false;
  const url = new URL(address);
  return url.protocol === `${scheme}:` && url.host === host && url.username === '' && url.password === '';
}
