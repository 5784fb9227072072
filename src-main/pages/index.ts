// Pages: the files that a page of ours may load, and the headers they go out with; alike for both hosts.
// Knows: the built renderer, the demo recordings, the content security policy. Must not know: HTTP servers, Electron, the library.
// Add here: a folder of files as a line in `listFiles`, a kind of file as a row in `contentTypes`.

export { applicationRoot } from './application-root.ts';
export { demoMicrophone, makePages, type Page, type Pages } from './pages.ts';
export { securityHeaders } from './headers.ts';
