const key = 'stillstring.session';
const launchPattern = /^#launch=([\w-]+)$/;

/** What lets this page in: the launch token of its address, and after that the session token it was exchanged for. */
export type Ticket = {
  /** As the second subprotocol of the socket; null for a page that was not opened from Stillstring's own address. */
  readonly protocol: () => string | null;
  readonly keep: (sessionToken: string) => void;
};

/** Takes the launch token out of the address, so that it is neither bookmarked nor left in the history. */
export function takeTicket(): Ticket {
  let launch = launchPattern.exec(location.hash)?.[1] ?? null;
  if (launch !== null) history.replaceState(null, '', location.pathname);
  return {
    protocol() {
      if (launch !== null) return `launch.${launch}`;
      const session = sessionStorage.getItem(key);
      return session === null ? null : `session.${session}`;
    },
    keep(sessionToken) {
      launch = null;
      sessionStorage.setItem(key, sessionToken);
    },
  };
}
