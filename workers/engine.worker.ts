import { expose } from 'comlink';
import { engineApi } from './engine-api.ts';
import { transferEngineErrors } from './error-transfer.ts';

transferEngineErrors();
expose(engineApi);
