import type { PushName, RequestName } from './names.ts';
import type { Input, Output, Push } from './requests.ts';

/** The host as the renderer sees it, whichever transport lies between. A failed request rejects with a `HostFailure`. */
export type Host = {
  ask<Name extends RequestName>(name: Name, input: Input<Name>): Promise<Output<Name>>;
  /** Calls `listener` on every such push; returns its own unsubscriber. */
  on<Name extends PushName>(name: Name, listener: (push: Push<Name>) => void): () => void;
};
