// The floor of a start: the same libraries, imported and no more.
import Database from 'better-sqlite3';
import { Client, REST, SlashCommandBuilder } from 'discord.js';
import { Hono } from 'hono';
import { serve } from '@hono/node-server';
import { pino } from 'pino';
import { z } from 'zod';

const used = [Client, REST, SlashCommandBuilder, Hono, serve, pino, z.object];
new Database(':memory:').close();
console.log(`imported ${used.length} rss ${process.memoryUsage().rss}`);
process.exit(0);
