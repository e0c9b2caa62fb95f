-- LuaHBTeX's layout of texts in lines of given lengths, timed inside it: HarfBuzz shapes a text
-- whole, its glyphs, kerns and spaces become a paragraph, and TeX's total fit breaks that by
-- \parshape. No macros and no fonts of a format: less than a document costs.
--
-- layout.txt: the font's file; its size in sp; the lengths of lines in sp; then a text a line.
-- Prints the microseconds of processor time that each text takes, and how many lines it makes.
local hb = require("luaharfbuzz")
local input = io.open("layout.txt")
local path, size = input:read("l"), tonumber(input:read("l"))
local shape = {}
for width in input:read("l"):gmatch("%S+") do shape[#shape + 1] = { 0, tonumber(width) } end

local face = hb.Face.new(path, 0)
local hbfont, scale = hb.Font.new(face), size / face:get_upem()
local ltr, latin, english = hb.Direction.new("ltr"), hb.Script.new("Latn"), hb.Language.new("en")
local characters, advance = {}, {}
for glyph = 0, face:get_glyph_count() - 1 do
  advance[glyph] = hbfont:get_glyph_h_advance(glyph)
  characters[glyph] = { width = math.floor(advance[glyph] * scale), height = size, depth = 0 }
end
local id = font.define({ name = "own", size = size, characters = characters, parameters = {} })
local space = hbfont:get_nominal_glyph(32)
local GLYPH, KERN, GLUE, PENALTY = node.id("glyph"), node.id("kern"), node.id("glue"), node.id("penalty")

local function paragraph(text)
  local buffer = hb.Buffer.new()
  buffer:add_utf8(text)
  buffer:set_direction(ltr)
  buffer:set_script(latin)
  buffer:set_language(english)
  hb.shape_full(hbfont, buffer, {}, {})
  local head = node.new(node.id("local_par"))
  local tail = head
  local function add(item)
    tail.next, item.prev, tail = item, tail, item
  end
  for _, glyph in ipairs(buffer:get_glyphs()) do
    if glyph.codepoint == space then
      local item = node.new(GLUE)
      item.width = math.floor(glyph.x_advance * scale)
      add(item)
    else
      local item = node.new(GLYPH, 1)
      item.font, item.char = id, glyph.codepoint
      add(item)
      local over = glyph.x_advance - advance[glyph.codepoint]
      if over ~= 0 then
        local kern = node.new(KERN, 1)
        kern.kern = math.floor(over * scale)
        add(kern)
      end
    end
  end
  local never = node.new(PENALTY)
  never.penalty = 10000
  add(never)
  add(node.new(GLUE, 15))
  return head
end

local rag = node.new(GLUE, 8)
rag.stretch = shape[math.ceil(#shape / 2)][2]
local settings = { parshape = shape, pretolerance = -1, tolerance = 10000, rightskip = rag,
                   hsize = shape[#shape][2], linepenalty = 10 }
for text in input:lines() do
  local begin = os.clock()
  local lines = tex.linebreak(paragraph(text), settings)
  local took, count = os.clock() - begin, 0
  for _ in node.traverse_id(node.id("hlist"), lines) do count = count + 1 end
  print("TOOK " .. took * 1e6 .. " " .. count)
  node.flush_list(lines)
end
