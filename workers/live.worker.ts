import { expose } from 'comlink';
import { LiveFeed } from './live-feed.ts';

expose(new LiveFeed());
