import { useSyncExternalStore } from 'react';
import { connection, onConnection } from '../host/index.ts';

/** Whether the part of Stillstring that keeps the library can be reached just now. */
export const useConnection = () => useSyncExternalStore(onConnection, connection);
