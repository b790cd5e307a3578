// The floor of a start: the libraries that a start imports, imported as usual and no more.
import Database from 'better-sqlite3';
import { Client, REST, SlashCommandBuilder } from 'discord.js';
import { pino } from 'pino';
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';

const used = [Client, REST, SlashCommandBuilder, pino, Temporal, z.object];
new Database(':memory:').close();
console.log(`imported ${used.length} rss ${process.memoryUsage().rss}`);
process.exit(0);
