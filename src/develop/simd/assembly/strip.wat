(module
 (type $0 (func (param i32 i32 i32 i32 i32)))
 (type $1 (func (param i32 i32 i32 i32)))
 (type $2 (func (param i32 i32 i32 i32 i32 i32 i32 i32 i32)))
 (import "env" "memory" (memory $0 0))
 (export "bin" (func $strip/bin))
 (export "light" (func $strip/light))
 (export "encode" (func $strip/encode))
 (func $strip/light (param $0 i32) (param $1 i32) (param $2 i32) (param $3 i32) (param $4 i32)
  (local $5 v128)
  (local $6 v128)
  (local $7 v128)
  (local $8 v128)
  (local $9 v128)
  (local $10 v128)
  (local $11 v128)
  (local $12 v128)
  (local $13 v128)
  (local $14 v128)
  (local $15 v128)
  (local $16 v128)
  (local $17 v128)
  (local $18 v128)
  local.get $2
  i32.const 84
  i32.add
  v128.load32_splat
  local.set $10
  local.get $2
  i32.const 88
  i32.add
  v128.load32_splat
  local.set $11
  local.get $2
  i32.const 92
  i32.add
  v128.load32_splat
  local.set $12
  local.get $4
  f32.convert_i32_u
  f32x4.splat
  local.set $13
  local.get $0
  local.get $1
  i32.const 12
  i32.mul
  i32.add
  local.set $1
  loop $for-loop|0
   local.get $0
   local.get $1
   i32.lt_u
   if
    local.get $2
    v128.load32_splat
    local.get $0
    v128.load
    local.tee $5
    local.get $0
    v128.load offset=16
    local.tee $6
    i8x16.shuffle 0 1 2 3 12 13 14 15 24 25 26 27 24 25 26 27
    local.get $0
    v128.load offset=32
    local.tee $7
    i8x16.shuffle 0 1 2 3 4 5 6 7 8 9 10 11 20 21 22 23
    local.tee $8
    f32x4.mul
    local.get $2
    i32.const 4
    i32.add
    v128.load32_splat
    local.get $5
    local.get $6
    i8x16.shuffle 4 5 6 7 16 17 18 19 28 29 30 31 28 29 30 31
    local.get $7
    i8x16.shuffle 0 1 2 3 4 5 6 7 8 9 10 11 24 25 26 27
    local.tee $9
    f32x4.mul
    f32x4.add
    local.get $2
    i32.const 8
    i32.add
    v128.load32_splat
    local.get $5
    local.get $6
    i8x16.shuffle 8 9 10 11 20 21 22 23 20 21 22 23 20 21 22 23
    local.get $7
    i8x16.shuffle 0 1 2 3 4 5 6 7 16 17 18 19 28 29 30 31
    local.tee $6
    f32x4.mul
    f32x4.add
    local.set $5
    local.get $2
    i32.const 12
    i32.add
    v128.load32_splat
    local.get $8
    f32x4.mul
    local.get $2
    i32.const 16
    i32.add
    v128.load32_splat
    local.get $9
    f32x4.mul
    f32x4.add
    local.get $2
    i32.const 20
    i32.add
    v128.load32_splat
    local.get $6
    f32x4.mul
    f32x4.add
    local.set $7
    local.get $2
    i32.const 24
    i32.add
    v128.load32_splat
    local.get $8
    f32x4.mul
    local.get $2
    i32.const 28
    i32.add
    v128.load32_splat
    local.get $9
    f32x4.mul
    f32x4.add
    local.get $2
    i32.const 32
    i32.add
    v128.load32_splat
    local.get $6
    f32x4.mul
    f32x4.add
    local.set $6
    local.get $4
    if
     local.get $3
     local.get $13
     local.get $10
     v128.const i32x4 0x00000000 0x00000000 0x00000000 0x00000000
     local.get $5
     local.get $7
     f32x4.max
     local.get $6
     f32x4.max
     local.tee $9
     f32x4.max
     f32x4.min
     f32x4.sqrt
     local.get $11
     f32x4.mul
     f32x4.min
     local.tee $8
     i32x4.trunc_sat_f32x4_s
     local.tee $14
     i32x4.extract_lane 1
     i32.const 2
     i32.shl
     i32.add
     local.get $3
     local.get $14
     i32x4.extract_lane 0
     i32.const 2
     i32.shl
     i32.add
     v128.load64_zero
     v128.load64_lane 1
     local.tee $15
     local.get $3
     local.get $14
     i32x4.extract_lane 3
     i32.const 2
     i32.shl
     i32.add
     local.get $3
     local.get $14
     i32x4.extract_lane 2
     i32.const 2
     i32.shl
     i32.add
     v128.load64_zero
     v128.load64_lane 1
     local.tee $16
     i8x16.shuffle 0 1 2 3 8 9 10 11 16 17 18 19 24 25 26 27
     local.tee $17
     local.get $8
     local.get $14
     f32x4.convert_i32x4_s
     f32x4.sub
     local.get $15
     local.get $16
     i8x16.shuffle 4 5 6 7 12 13 14 15 20 21 22 23 28 29 30 31
     local.get $17
     f32x4.sub
     f32x4.mul
     f32x4.add
     v128.const i32x4 0x00000000 0x00000000 0x00000000 0x00000000
     local.get $9
     f32x4.min
     local.get $12
     f32x4.mul
     f32x4.add
     local.get $3
     local.get $13
     local.get $10
     v128.const i32x4 0x00000000 0x00000000 0x00000000 0x00000000
     local.get $5
     local.get $7
     f32x4.min
     local.get $6
     f32x4.min
     local.tee $14
     f32x4.max
     f32x4.min
     f32x4.sqrt
     local.get $11
     f32x4.mul
     f32x4.min
     local.tee $15
     i32x4.trunc_sat_f32x4_s
     local.tee $16
     i32x4.extract_lane 1
     i32.const 2
     i32.shl
     i32.add
     local.get $3
     local.get $16
     i32x4.extract_lane 0
     i32.const 2
     i32.shl
     i32.add
     v128.load64_zero
     v128.load64_lane 1
     local.tee $17
     local.get $3
     local.get $16
     i32x4.extract_lane 3
     i32.const 2
     i32.shl
     i32.add
     local.get $3
     local.get $16
     i32x4.extract_lane 2
     i32.const 2
     i32.shl
     i32.add
     v128.load64_zero
     v128.load64_lane 1
     local.tee $8
     i8x16.shuffle 0 1 2 3 8 9 10 11 16 17 18 19 24 25 26 27
     local.tee $18
     local.get $15
     local.get $16
     f32x4.convert_i32x4_s
     f32x4.sub
     local.get $17
     local.get $8
     i8x16.shuffle 4 5 6 7 12 13 14 15 20 21 22 23 28 29 30 31
     local.get $18
     f32x4.sub
     f32x4.mul
     f32x4.add
     v128.const i32x4 0x00000000 0x00000000 0x00000000 0x00000000
     local.get $14
     f32x4.min
     local.get $12
     f32x4.mul
     f32x4.add
     local.tee $8
     f32x4.sub
     local.get $9
     local.get $14
     f32x4.sub
     v128.const i32x4 0x00800000 0x00800000 0x00800000 0x00800000
     f32x4.max
     f32x4.div
     local.set $9
     local.get $8
     local.get $9
     local.get $6
     local.get $14
     f32x4.sub
     f32x4.mul
     f32x4.add
     local.set $6
     local.get $8
     local.get $9
     local.get $7
     local.get $14
     f32x4.sub
     f32x4.mul
     f32x4.add
     local.set $7
     local.get $8
     local.get $9
     local.get $5
     local.get $14
     f32x4.sub
     f32x4.mul
     f32x4.add
     local.set $5
    end
    local.get $2
    i32.const 36
    i32.add
    v128.load32_splat
    local.get $5
    f32x4.mul
    local.get $2
    i32.const 40
    i32.add
    v128.load32_splat
    local.get $7
    f32x4.mul
    f32x4.add
    local.get $2
    i32.const 44
    i32.add
    v128.load32_splat
    local.get $6
    f32x4.mul
    f32x4.add
    local.tee $9
    local.get $2
    i32.const 48
    i32.add
    v128.load32_splat
    local.get $5
    f32x4.mul
    local.get $2
    i32.const 52
    i32.add
    v128.load32_splat
    local.get $7
    f32x4.mul
    f32x4.add
    local.get $2
    i32.const 56
    i32.add
    v128.load32_splat
    local.get $6
    f32x4.mul
    f32x4.add
    local.tee $8
    f32x4.max
    local.get $2
    i32.const 60
    i32.add
    v128.load32_splat
    local.get $5
    f32x4.mul
    local.get $2
    i32.const -64
    i32.sub
    v128.load32_splat
    local.get $7
    f32x4.mul
    f32x4.add
    local.get $2
    i32.const 68
    i32.add
    v128.load32_splat
    local.get $6
    f32x4.mul
    f32x4.add
    local.tee $5
    f32x4.max
    local.tee $6
    v128.const i32x4 0x3f800000 0x3f800000 0x3f800000 0x3f800000
    f32x4.gt
    local.tee $7
    local.get $9
    local.get $8
    f32x4.min
    local.get $5
    f32x4.min
    local.tee $14
    v128.const i32x4 0x00000000 0x00000000 0x00000000 0x00000000
    f32x4.lt
    local.tee $15
    v128.or
    v128.any_true
    if
     v128.const i32x4 0x3f800000 0x3f800000 0x3f800000 0x3f800000
     v128.const i32x4 0x00000000 0x00000000 0x00000000 0x00000000
     local.get $2
     i32.const 72
     i32.add
     v128.load32_splat
     local.get $9
     f32x4.mul
     local.get $2
     i32.const 76
     i32.add
     v128.load32_splat
     local.get $8
     f32x4.mul
     f32x4.add
     local.get $2
     i32.const 80
     i32.add
     v128.load32_splat
     local.get $5
     f32x4.mul
     f32x4.add
     f32x4.max
     f32x4.min
     local.tee $16
     local.get $16
     local.get $14
     f32x4.sub
     f32x4.div
     v128.const i32x4 0x3f800000 0x3f800000 0x3f800000 0x3f800000
     local.get $15
     v128.bitselect
     v128.const i32x4 0x3f800000 0x3f800000 0x3f800000 0x3f800000
     local.get $16
     f32x4.sub
     local.get $6
     local.get $16
     f32x4.sub
     f32x4.div
     v128.const i32x4 0x3f800000 0x3f800000 0x3f800000 0x3f800000
     local.get $7
     v128.bitselect
     f32x4.min
     local.set $6
     local.get $16
     local.get $6
     local.get $9
     local.get $16
     f32x4.sub
     f32x4.mul
     f32x4.add
     local.set $9
     local.get $16
     local.get $6
     local.get $8
     local.get $16
     f32x4.sub
     f32x4.mul
     f32x4.add
     local.set $8
     local.get $16
     local.get $6
     local.get $5
     local.get $16
     f32x4.sub
     f32x4.mul
     f32x4.add
     local.set $5
    end
    local.get $0
    local.get $9
    local.get $8
    i8x16.shuffle 0 1 2 3 16 17 18 19 4 5 6 7 20 21 22 23
    local.tee $6
    local.get $5
    i8x16.shuffle 0 1 2 3 4 5 6 7 16 17 18 19 8 9 10 11
    v128.store
    local.get $0
    local.get $6
    local.get $5
    i8x16.shuffle 12 13 14 15 20 21 22 23 12 13 14 15 20 21 22 23
    local.get $9
    local.get $8
    i8x16.shuffle 8 9 10 11 24 25 26 27 12 13 14 15 28 29 30 31
    local.tee $6
    i8x16.shuffle 0 1 2 3 4 5 6 7 16 17 18 19 20 21 22 23
    v128.store offset=16
    local.get $0
    local.get $6
    local.get $5
    i8x16.shuffle 24 25 26 27 8 9 10 11 12 13 14 15 28 29 30 31
    v128.store offset=32
    local.get $0
    i32.const 48
    i32.add
    local.set $0
    br $for-loop|0
   end
  end
 )
 (func $strip/encode (param $0 i32) (param $1 i32) (param $2 i32) (param $3 i32)
  (local $4 i32)
  (local $5 i32)
  (local $6 v128)
  loop $for-loop|0
   local.get $1
   local.get $4
   i32.gt_u
   if
    local.get $3
    local.get $4
    i32.add
    local.tee $5
    local.get $2
    v128.const i32x4 0x3f800000 0x3f800000 0x3f800000 0x3f800000
    v128.const i32x4 0x00000000 0x00000000 0x00000000 0x00000000
    local.get $0
    local.get $4
    i32.const 2
    i32.shl
    i32.add
    v128.load
    f32x4.max
    f32x4.min
    v128.const i32x4 0x477fff00 0x477fff00 0x477fff00 0x477fff00
    f32x4.mul
    v128.const i32x4 0x3f000000 0x3f000000 0x3f000000 0x3f000000
    f32x4.add
    i32x4.trunc_sat_f32x4_s
    local.tee $6
    i32x4.extract_lane 0
    i32.add
    i32.load8_u
    i32.store8
    local.get $5
    local.get $2
    local.get $6
    i32x4.extract_lane 1
    i32.add
    i32.load8_u
    i32.store8 offset=1
    local.get $5
    local.get $2
    local.get $6
    i32x4.extract_lane 2
    i32.add
    i32.load8_u
    i32.store8 offset=2
    local.get $5
    local.get $2
    local.get $6
    i32x4.extract_lane 3
    i32.add
    i32.load8_u
    i32.store8 offset=3
    local.get $4
    i32.const 4
    i32.add
    local.set $4
    br $for-loop|0
   end
  end
 )
 (func $strip/bin (param $0 i32) (param $1 i32) (param $2 i32) (param $3 i32) (param $4 i32) (param $5 i32) (param $6 i32) (param $7 i32) (param $8 i32)
  (local $9 v128)
  (local $10 v128)
  (local $11 v128)
  (local $12 i32)
  (local $13 i32)
  (local $14 i32)
  (local $15 i32)
  (local $16 i32)
  (local $17 v128)
  (local $18 i32)
  (local $19 v128)
  (local $20 v128)
  (local $21 v128)
  (local $22 v128)
  local.get $1
  i32.const 1
  i32.shr_u
  local.set $13
  local.get $1
  i32.const 1
  i32.shl
  local.set $16
  loop $for-loop|0
   local.get $2
   local.get $12
   i32.gt_u
   if
    local.get $0
    local.get $12
    local.get $16
    i32.mul
    i32.const 1
    i32.shl
    i32.add
    local.set $14
    local.get $3
    local.get $12
    local.get $13
    i32.mul
    i32.const 12
    i32.mul
    i32.add
    local.set $15
    i32.const 0
    local.set $1
    loop $for-loop|1
     local.get $1
     local.get $13
     i32.lt_u
     if
      local.get $14
      local.get $1
      i32.const 2
      i32.shl
      i32.add
      local.tee $18
      local.get $5
      i32.const 1
      i32.shr_u
      local.get $16
      i32.mul
      i32.add
      v128.load
      local.get $5
      i32.const 1
      i32.and
      i32.const 4
      i32.shl
      i32x4.shr_u
      v128.const i32x4 0x0000ffff 0x0000ffff 0x0000ffff 0x0000ffff
      v128.and
      f32x4.convert_i32x4_s
      local.get $4
      v128.load32_splat
      f32x4.mul
      local.get $4
      i32.const 16
      i32.add
      v128.load32_splat
      f32x4.sub
      local.tee $10
      local.get $4
      i32.const 32
      i32.add
      v128.load32_splat
      f32x4.div
      local.tee $17
      local.get $18
      local.get $6
      i32.const 1
      i32.shr_u
      local.get $16
      i32.mul
      i32.add
      v128.load
      local.get $6
      i32.const 1
      i32.and
      i32.const 4
      i32.shl
      i32x4.shr_u
      v128.const i32x4 0x0000ffff 0x0000ffff 0x0000ffff 0x0000ffff
      v128.and
      f32x4.convert_i32x4_s
      local.get $4
      i32.const 4
      i32.add
      v128.load32_splat
      f32x4.mul
      local.get $4
      i32.const 20
      i32.add
      v128.load32_splat
      f32x4.sub
      local.get $18
      local.get $7
      i32.const 1
      i32.shr_u
      local.get $16
      i32.mul
      i32.add
      v128.load
      local.get $7
      i32.const 1
      i32.and
      i32.const 4
      i32.shl
      i32x4.shr_u
      v128.const i32x4 0x0000ffff 0x0000ffff 0x0000ffff 0x0000ffff
      v128.and
      f32x4.convert_i32x4_s
      local.get $4
      i32.const 8
      i32.add
      v128.load32_splat
      f32x4.mul
      local.get $4
      i32.const 24
      i32.add
      v128.load32_splat
      f32x4.sub
      f32x4.add
      local.tee $11
      local.get $4
      i32.const 36
      i32.add
      v128.load32_splat
      f32x4.div
      local.tee $19
      f32x4.max
      local.get $18
      local.get $8
      i32.const 1
      i32.shr_u
      local.get $16
      i32.mul
      i32.add
      v128.load
      local.get $8
      i32.const 1
      i32.and
      i32.const 4
      i32.shl
      i32x4.shr_u
      v128.const i32x4 0x0000ffff 0x0000ffff 0x0000ffff 0x0000ffff
      v128.and
      f32x4.convert_i32x4_s
      local.get $4
      i32.const 12
      i32.add
      v128.load32_splat
      f32x4.mul
      local.get $4
      i32.const 28
      i32.add
      v128.load32_splat
      f32x4.sub
      local.tee $9
      local.get $4
      i32.const 40
      i32.add
      v128.load32_splat
      f32x4.div
      local.tee $20
      f32x4.max
      v128.const i32x4 0x3f666666 0x3f666666 0x3f666666 0x3f666666
      f32x4.gt
      v128.any_true
      if
       local.get $10
       v128.const i32x4 0x3f800000 0x3f800000 0x3f800000 0x3f800000
       v128.const i32x4 0x00000000 0x00000000 0x00000000 0x00000000
       local.get $17
       v128.const i32x4 0x3f666666 0x3f666666 0x3f666666 0x3f666666
       f32x4.sub
       v128.const i32x4 0x41200000 0x41200000 0x41200000 0x41200000
       f32x4.mul
       f32x4.max
       f32x4.min
       local.tee $17
       local.get $17
       f32x4.mul
       v128.const i32x4 0x40400000 0x40400000 0x40400000 0x40400000
       local.get $17
       local.get $17
       f32x4.add
       f32x4.sub
       f32x4.mul
       local.tee $21
       v128.const i32x4 0x00000000 0x00000000 0x00000000 0x00000000
       v128.const i32x4 0x3f800000 0x3f800000 0x3f800000 0x3f800000
       v128.const i32x4 0x00000000 0x00000000 0x00000000 0x00000000
       local.get $19
       v128.const i32x4 0x3f666666 0x3f666666 0x3f666666 0x3f666666
       f32x4.sub
       v128.const i32x4 0x41200000 0x41200000 0x41200000 0x41200000
       f32x4.mul
       f32x4.max
       f32x4.min
       local.tee $17
       local.get $17
       f32x4.mul
       v128.const i32x4 0x40400000 0x40400000 0x40400000 0x40400000
       local.get $17
       local.get $17
       f32x4.add
       f32x4.sub
       f32x4.mul
       local.tee $17
       local.get $9
       local.get $10
       f32x4.sub
       f32x4.mul
       v128.const i32x4 0x3f800000 0x3f800000 0x3f800000 0x3f800000
       v128.const i32x4 0x00000000 0x00000000 0x00000000 0x00000000
       local.get $20
       v128.const i32x4 0x3f666666 0x3f666666 0x3f666666 0x3f666666
       f32x4.sub
       v128.const i32x4 0x41200000 0x41200000 0x41200000 0x41200000
       f32x4.mul
       f32x4.max
       f32x4.min
       local.tee $19
       local.get $19
       f32x4.mul
       v128.const i32x4 0x40400000 0x40400000 0x40400000 0x40400000
       local.get $19
       local.get $19
       f32x4.add
       f32x4.sub
       f32x4.mul
       local.tee $19
       local.get $11
       local.get $10
       f32x4.sub
       f32x4.mul
       f32x4.max
       f32x4.max
       f32x4.mul
       f32x4.add
       local.tee $20
       local.get $21
       v128.const i32x4 0x00000000 0x00000000 0x00000000 0x00000000
       local.get $11
       local.get $17
       v128.const i32x4 0x00000000 0x00000000 0x00000000 0x00000000
       local.get $19
       local.get $10
       local.get $11
       f32x4.sub
       f32x4.mul
       local.get $21
       local.get $9
       local.get $11
       f32x4.sub
       f32x4.mul
       f32x4.max
       f32x4.max
       f32x4.mul
       f32x4.add
       local.tee $22
       local.get $9
       local.get $19
       v128.const i32x4 0x00000000 0x00000000 0x00000000 0x00000000
       local.get $17
       local.get $10
       local.get $9
       f32x4.sub
       f32x4.mul
       local.get $21
       local.get $11
       local.get $9
       f32x4.sub
       f32x4.mul
       f32x4.max
       f32x4.max
       f32x4.mul
       f32x4.add
       local.tee $9
       f32x4.min
       local.get $20
       f32x4.sub
       f32x4.max
       f32x4.mul
       f32x4.add
       local.tee $10
       local.get $21
       local.get $17
       f32x4.mul
       local.get $19
       f32x4.mul
       local.tee $21
       local.get $10
       local.get $22
       local.get $17
       v128.const i32x4 0x00000000 0x00000000 0x00000000 0x00000000
       local.get $20
       local.get $9
       f32x4.add
       v128.const i32x4 0x3f000000 0x3f000000 0x3f000000 0x3f000000
       f32x4.mul
       local.get $22
       f32x4.sub
       f32x4.max
       f32x4.mul
       f32x4.add
       local.tee $11
       f32x4.max
       local.get $9
       local.get $19
       v128.const i32x4 0x00000000 0x00000000 0x00000000 0x00000000
       local.get $20
       local.get $22
       f32x4.min
       local.get $9
       f32x4.sub
       f32x4.max
       f32x4.mul
       f32x4.add
       local.tee $9
       f32x4.max
       local.tee $17
       local.get $10
       f32x4.sub
       f32x4.mul
       f32x4.add
       local.set $10
       local.get $11
       local.get $21
       local.get $17
       local.get $11
       f32x4.sub
       f32x4.mul
       f32x4.add
       local.set $11
       local.get $9
       local.get $21
       local.get $17
       local.get $9
       f32x4.sub
       f32x4.mul
       f32x4.add
       local.set $9
      end
      local.get $15
      local.get $1
      i32.const 12
      i32.mul
      i32.add
      local.tee $18
      local.get $10
      local.get $11
      i8x16.shuffle 0 1 2 3 16 17 18 19 4 5 6 7 20 21 22 23
      local.tee $17
      local.get $9
      i8x16.shuffle 0 1 2 3 4 5 6 7 16 17 18 19 8 9 10 11
      v128.store
      local.get $18
      local.get $17
      local.get $9
      i8x16.shuffle 12 13 14 15 20 21 22 23 12 13 14 15 20 21 22 23
      local.get $10
      local.get $11
      i8x16.shuffle 8 9 10 11 24 25 26 27 12 13 14 15 28 29 30 31
      local.tee $10
      i8x16.shuffle 0 1 2 3 4 5 6 7 16 17 18 19 20 21 22 23
      v128.store offset=16
      local.get $18
      local.get $10
      local.get $9
      i8x16.shuffle 24 25 26 27 8 9 10 11 12 13 14 15 28 29 30 31
      v128.store offset=32
      local.get $1
      i32.const 4
      i32.add
      local.set $1
      br $for-loop|1
     end
    end
    local.get $12
    i32.const 1
    i32.add
    local.set $12
    br $for-loop|0
   end
  end
 )
)
