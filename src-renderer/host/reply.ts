import { HostFailure, type Reply } from '#shared/contract/index.ts';

/** The value of a reply. Throws its failure as a `HostFailure`. */
export function valueOf(reply: Reply): unknown {
  if (reply.ok) return reply.value;
  throw new HostFailure(reply.failure.code, reply.failure.sentence);
}
