import { randomBytes } from 'node:crypto';

/** Secrets of the desk: launch tokens, each good for one exchange, and the session tokens that they are exchanged for. */
export type Tokens = {
  /** A new launch token, for the fragment of one address. */
  launch(): string;
  /** A session token for a launch token, which is then used up; null for one that is unknown or used. */
  exchange(launchToken: string): string | null;
  isSession(token: string): boolean;
};

/** 256 random bits, in letters that may stand in an address and in a subprotocol. */
export const secret = (): string => randomBytes(32).toString('base64url');

function added(tokens: Set<string>): string {
  const token = secret();
  tokens.add(token);
  return token;
}

/** Keeps the tokens of one run of the desk. */
export function makeTokens(): Tokens {
  const launches = new Set<string>();
  const sessions = new Set<string>();
  return {
    launch: () => added(launches),
    exchange: (launchToken) => (launches.delete(launchToken) ? added(sessions) : null),
    isSession: (token) => sessions.has(token),
  };
}
