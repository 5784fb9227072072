import type { Bridge, Host, Input, Output, Push, PushName, Reply, RequestName } from '#shared/contract/index.ts';
import { valueOf } from './reply.ts';

/** The host behind Electron's bridge. The replies were checked by the contract where they were made. */
export const hostOverBridge = (bridge: Bridge): Host => ({
  async ask<Name extends RequestName>(name: Name, input: Input<Name>) {
    return valueOf((await bridge.ask(name, input)) as Reply) as Output<Name>;
  },
  on<Name extends PushName>(name: Name, listener: (push: Push<Name>) => void) {
    return bridge.on(name, (push) => listener(push as Push<Name>));
  },
});
